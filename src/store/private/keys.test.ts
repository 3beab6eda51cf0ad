import { chmodSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openKeys, readKeyFile } from './keys.js';

let data: string;
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-keys-'));
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

const keys = () => {
  const opened = openKeys(data);
  if (!opened.ok) throw new Error(opened.why.say);
  return opened.value;
};
const mode = (path: string): string => (statSync(path).mode & 0o777).toString(8);

describe('keys are for their owner alone (Verifies: LAN-R2)', () => {
  it('from the first byte on, whatever the process would give others', () => {
    const before = process.umask(0);
    try {
      expect(keys().write('server.key', 'secret')).toEqual({ ok: true, value: null });
    } finally {
      process.umask(before);
    }
    expect([mode(keys().folder), mode(join(keys().folder, 'server.key'))]).toEqual(['700', '600']);
    expect(keys().read('server.key')).toEqual({ ok: true, value: 'secret' });
    expect(keys().read('other.key')).toEqual({ ok: true, value: null });
  });

  it.each([0o640, 0o604, 0o660])('a file that others may use (%o) is refused and left as it is', (wide) => {
    keys().write('server.key', 'secret');
    const file = join(keys().folder, 'server.key');
    chmodSync(file, wide);
    expect(keys().read('server.key')).toEqual({
      ok: false,
      why: { say: 'lan.keys.file-open', with: { file, mode: wide.toString(8) } },
    });
    expect(mode(file)).toBe(wide.toString(8));
  });

  it('a folder that others may look into is refused', () => {
    const { folder } = keys();
    chmodSync(folder, 0o750);
    expect(openKeys(data)).toEqual({ ok: false, why: { say: 'lan.keys.folder-open', with: { folder, mode: '750' } } });
  });

  it('says what stands in the way', () => {
    const file = join(data, 'file');
    writeFileSync(file, '', { mode: 0o600 });
    expect(openKeys(file)).toMatchObject({ ok: false, why: { say: 'lan.keys.failed' } });
    expect(readKeyFile(join(file, 'x'))).toMatchObject({ ok: false, why: { say: 'lan.keys.failed' } });
  });
});
