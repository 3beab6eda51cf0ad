import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterEach, describe, expect, it } from 'vitest';
import type { PrivateSide } from '../../src/log/private-side.js';
import { memoryPrivateSide } from '../../src/store/private/memory.js';
import { openPrivateSide, privateFile } from '../../src/store/private/sqlite.js';
import { id, type OpenedSide, privateSideContract } from './private-side.js';

const folders: string[] = [];
const newFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-private-'));
  folders.push(folder);
  return folder;
};
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

function opened(folder: string): PrivateSide {
  const side = openPrivateSide(folder);
  if (!side.ok) throw new Error(JSON.stringify(side.why));
  return side.value;
}

/** Every kind of private side there is. A kind that is not here may not be used. */
const kinds = {
  memory: (): OpenedSide => {
    const side = memoryPrivateSide();
    return { side, another: null, bytes: null, dispose: side.close };
  },
  SQLite: (): OpenedSide => {
    const folder = newFolder();
    const sides = [opened(folder)];
    const another = (): PrivateSide => {
      const other = opened(folder);
      sides.push(other);
      return other;
    };
    return {
      side: sides[0] as PrivateSide,
      another,
      bytes: () =>
        readdirSync(folder)
          .map((name) => readFileSync(join(folder, name), 'latin1'))
          .join(''),
      dispose: async () => {
        for (const one of sides) await one.close();
      },
    };
  },
} as const satisfies Record<string, () => OpenedSide>;

for (const [kind, make] of Object.entries(kinds)) privateSideContract(kind, make);

describe('the file of the private side', () => {
  it('is for its owner only, also when it was open to others before (Verifies: LOG-R80)', async () => {
    const folder = newFolder();
    const file = join(folder, privateFile);
    const mode = (): number => statSync(file).mode & 0o777;
    await opened(folder).close();
    expect(mode()).toBe(0o600);
    chmodSync(file, 0o644);
    await opened(folder).close();
    expect(mode()).toBe(0o600);
  });

  it('is left as it is when it is not ours, of a newer program, or damaged', async () => {
    const why = (folder: string): string => {
      const answer = openPrivateSide(folder);
      return answer.ok ? 'opened' : answer.why.say;
    };
    const other = newFolder();
    const alien = new SqliteDatabase(join(other, privateFile));
    alien.exec('create table people (id text)');
    alien.close();
    expect(why(other)).toBe('server.store.not-a-store');

    const newer = newFolder();
    await opened(newer).close();
    const engine = new SqliteDatabase(join(newer, privateFile));
    engine.pragma('user_version = 2');
    engine.close();
    expect(why(newer)).toBe('server.store.newer-version');

    const junk = newFolder();
    writeFileSync(join(junk, privateFile), 'x'.repeat(5000));
    expect(why(junk)).toBe('server.store.not-a-store');
    expect(readFileSync(join(junk, privateFile), 'utf8')).toBe('x'.repeat(5000));
  });

  it('still has everybody after a restart', async () => {
    const folder = newFolder();
    const side = opened(folder);
    await side.change([{ id: id('tove'), name: 'Tove' }]);
    await side.close();
    const again = opened(folder);
    expect(await again.people()).toMatchObject([{ id: 'tove', name: 'Tove' }]);
    await again.close();
  });
});
