import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { shelter, value } from '../../../test/support/app.js';
import { at } from '../../../test/support/log.js';
import { no, type Outcome, ok, type Said } from '../../core/said.js';
import { keepCopies } from './keep-copies.js';
import { copyName } from './rule.js';

const noon = at('2026-03-02', '12:00');
const every_ms = 6 * 3_600_000;
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'roundhand-keep-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Watches until something was tried, or until it is certain that nothing is. */
function keeping(make: (when: string) => Outcome<string>, now = noon) {
  const tried: string[] = [];
  const told: Said[] = [];
  const kept = keepCopies(
    { folder, passphrase: null, every_ms },
    () => now,
    async (when) => {
      tried.push(when);
      return make(when);
    },
    (what) => void told.push(what),
  );
  const settled = async (): Promise<void> => {
    for (let turn = 0; turn < 10; turn += 1) await new Promise((done) => setImmediate(done));
  };
  return { tried, told, kept, settled };
}
const there = (when: string): void => writeFileSync(join(folder, copyName(when, false)), '');
const makes = (when: string): Outcome<string> => {
  there(when);
  return ok(join(folder, copyName(when, false)));
};
const fails = (): Outcome<string> => no('copies.place-missing', { folder });

describe('copies on a schedule (Verifies: COPY-R4)', () => {
  it('make one at the start where there is none, and then wait', async () => {
    const { tried, told, kept, settled } = keeping(makes);
    await settled();
    kept.stop();
    expect([tried, told]).toEqual([[noon], []]);
    expect(kept.state()).toEqual({ last: noon, failed: null });
  });

  it.each([
    ['not while the newest is young', at('2026-03-02', '06:01'), 0],
    ['when the newest is as old as the time between two', at('2026-03-02', '06:00'), 1],
    ['when the newest is from before the clock was set back', at('2026-03-05', '12:00'), 1],
  ])('%s', async (_what, newest, times) => {
    there(newest);
    const { tried, kept, settled } = keeping(makes);
    await settled();
    kept.stop();
    expect(tried).toHaveLength(times);
  });

  it('tell of a try that failed, with the age of the newest', async () => {
    there(at('2026-03-01', '12:00'));
    const { told, kept, settled } = keeping(fails);
    await settled();
    kept.stop();
    expect(told).toEqual([
      {
        say: 'copies.old',
        with: { why: { say: 'copies.place-missing', with: { folder } }, at: { instant: at('2026-03-01', '12:00') } },
      },
    ]);
    rmSync(folder, { recursive: true });
    expect(kept.state()).toMatchObject({ last: null, failed: { say: 'copies.place-missing' } });
    mkdirSync(folder);
  });

  it('that fail are said on every page, on the console and by the server’s health', async () => {
    const said: Said[] = [];
    const missing = join(folder, 'no-disk');
    const { as } = await shelter(1, 'UTC', {
      backUp: async () => undefined,
      copies: { folder: missing, passphrase: null, every_ms },
      complain: (what) => void said.push(what),
    });
    await expect.poll(() => said.length).toBe(1);
    expect(said[0]).toMatchObject({ say: 'copies.none', with: { why: { say: 'copies.place-missing' } } });
    const health = value(await as(null).health());
    expect(health.copied).toEqual({ last: null, failed: true });
    expect(health.told.join(' ')).toContain('There is no copy of the records in the second place');
    expect(value(await as('ines').shelter())).toMatchObject({ told: [{ say: 'copies.none' }] });
  });

  it('into what is no folder stop nothing: the server answers, and says what is wrong', async () => {
    const file = join(folder, 'a-file');
    writeFileSync(file, '');
    const { as } = await shelter(1, 'UTC', {
      backUp: async () => undefined,
      copies: { folder: file, passphrase: null, every_ms },
      complain: () => undefined,
    });
    await expect
      .poll(async () => value(await as('ines').shelter()))
      .toMatchObject({ told: [{ say: 'copies.none', with: { why: { say: 'copies.place-no-folder' } } }] });
    expect(value(await as(null).health()).copied).toEqual({ last: null, failed: true });
  });

  it('that are deleted while the server runs are missed', async () => {
    const { kept, settled } = keeping(makes);
    await settled();
    rmSync(folder, { recursive: true });
    expect(kept.state()).toMatchObject({ last: null, failed: { say: 'copies.place-missing' } });
    kept.stop();
    mkdirSync(folder);
  });

  it('are not missed where none are asked for', async () => {
    const { as } = await shelter(1);
    expect(value(await as(null).health())).toMatchObject({ copied: null, told: [] });
  });
});
