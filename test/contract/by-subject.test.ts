import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addDays, type CalendarDate } from '../../src/core/calendar.js';
import { flagsAbout } from '../../src/log/flags/flags.js';
import { type Draft, draft, type LogRecord } from '../../src/log/record.js';
import { rowsOfAnimal } from '../../src/log/rows/rows.js';
import { buildWorld, dueIn } from '../../src/log/views/world.js';
import { openStore, type SqliteStore, storeFile } from '../../src/store/sqlite/open.js';
import { isAtRest } from '../../src/store/subject.js';
import { times } from '../support/chance.js';
import { at, day, kitten } from '../support/log.js';
import { everyKind, oneOf } from '../support/one-of-each.js';
import { shelterLog, weighed, wormed } from '../support/shelter-log.js';

let folder: string;
let store: SqliteStore;
let seen: string[] = [];
const noon = at('2026-03-02', '12:00');

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'roundhand-by-subject-'));
  seen = [];
  const opened = await openStore(folder, { watch: ({ sql }) => seen.push(sql) });
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  store = opened.value;
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const leaves = (kit: number): Draft =>
  draft('animal-left', `animal:kit-${kit}`, { how: 'adopted', on: day('2026-03-02') }, noon);
const statusOf = async (kit: number): Promise<string | undefined> =>
  (await store.rows('due_items', { animal: `kit-${kit}`, schedule: 'roundworm' }))[0]?.status;

describe('a new day', () => {
  it('is said at once and worked out between appends, whoever is asked for first (Verifies: LOG-R62)', async () => {
    const log = shelterLog(90);
    await store.append([...log.records, ...log.add([wormed(1, noon), wormed(90, noon)])], noon);
    await store.upToDate();
    const answered: string[] = [];
    const later = at('2026-05-01', '12:00');
    const empty = store.append([], later).then(() => answered.push('new day'));
    await empty;
    const { rowsOn, stale } = await store.head();
    expect([rowsOn, stale > 40]).toEqual(['2026-05-01', true]);
    // One that is asked for is brought there first, and a record waits for no other animal.
    expect(await statusOf(90)).toBe('overdue');
    const all = store.upToDate().then(() => answered.push('all'));
    await store.append(log.add([weighed(2, 640, later)]), later).then(() => answered.push('record'));
    await all;
    expect(answered).toEqual(['new day', 'record', 'all']);
    expect((await store.head()).stale).toBe(0);
    expect(await statusOf(1)).toBe('overdue');
  });

  it('leaves those alone that have left with nothing open (Verifies: LOG-R63)', async () => {
    const log = shelterLog(40);
    const gone = Array.from({ length: 38 }, (_, index) => leaves(index + 1));
    await store.append([...log.records, ...log.add(gone, 'sol')], noon);
    await store.upToDate();
    await store.append([], at('2026-03-03', '12:00'));
    expect((await store.head()).stale).toBeLessThanOrEqual(2);
    await store.upToDate();
    // A lot that one of them had is withdrawn: that one, and no other, is looked at again.
    await store.append(log.add([wormed(5, noon)]), at('2026-03-03', '12:00'));
    await store.upToDate();
    const flags = async () => (await store.rows('flags', { code: 'withdrawn-lot' })).map(({ animal }) => animal);
    expect(await flags()).toEqual([]);
    const withdrawn = draft('lot-withdrawn', 'lot:pyr-1', { why: 'recalled' } as never, at('2026-03-03', '11:00'));
    seen = [];
    await store.append(log.add([withdrawn], 'sol'), at('2026-03-03', '12:00'));
    await store.upToDate();
    expect(await flags()).toEqual(['kit-5']);
    const folded = seen.filter((sql) => sql.startsWith('insert into "animal_folds"'));
    expect(folded).toHaveLength(1);
  });

  it('changes nothing about an animal at rest, whatever was recorded (Verifies: LOG-R63)', () => {
    let rested = 0;
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...everyKind), { maxLength: 12 }), fc.nat(400), (kinds, days) => {
        const log = shelterLog(1);
        log.add(kinds.map((kind) => oneOf(kind)).filter(({ subject }) => subject !== 'animal:kit-2'));
        log.add([leaves(1)], 'sol');
        const world = buildWorld(log.records);
        const records = world.bySubject.get('animal:kit-1') ?? [];
        const animal = world.animals.get('kit-1' as never);
        const today = day('2026-03-02');
        if (animal === undefined || !isAtRest(animal, records, today)) return;
        rested += 1;
        const on = (date: CalendarDate): string =>
          JSON.stringify([
            rowsOfAnimal(animal, records, dueIn(world, animal, date)),
            flagsAbout(world, animal.id, date),
          ]);
        expect(on(addDays(today, days))).toBe(on(today));
      }),
      { numRuns: times(300, 3_000) },
    );
    // Where none comes to rest, nothing is tried.
    expect(rested).toBeGreaterThan(30);
  });
});

describe('appends that wait together', () => {
  it('are kept in one transaction, each with its own answer (Verifies: LOG-R64)', async () => {
    const log = shelterLog(30);
    await store.append(log.records, noon);
    await store.upToDate();
    seen = [];
    const batches = Array.from({ length: 30 }, (_, index) => log.add([weighed(index + 1, 600, noon)]));
    const answers = await Promise.all(batches.map((batch) => store.append(batch, noon)));
    expect(answers.flat().map(({ outcome }) => outcome)).toEqual(batches.map(() => 'stored'));
    expect(seen.filter((sql) => sql === 'begin')).toHaveLength(1);
  });

  it('take no other along when one is malformed or under an id that is taken (Verifies: LOG-R64)', async () => {
    const log = shelterLog(3);
    await store.append(log.records, noon);
    const { seq } = await store.head();
    const [good] = log.add([weighed(1, 600, noon)]) as [LogRecord];
    const other = { ...good, body: { ...good.body, grams: 700 } } as LogRecord;
    const [bad] = log.add([weighed(2, 600, noon)]) as [LogRecord];
    const unwritable = { ...bad, body: { grams: 1n } } as unknown as LogRecord;
    const [last] = log.add([weighed(3, 600, noon)]) as [LogRecord];
    const [one, taken, malformed, fine] = await Promise.allSettled([
      store.append([good], noon),
      store.append([other], noon),
      store.append([unwritable], noon),
      store.append([last], noon),
    ]);
    expect(one).toMatchObject({ status: 'fulfilled', value: [{ outcome: 'stored', seq: seq + 1 }] });
    expect(taken).toMatchObject({ status: 'fulfilled', value: [{ outcome: 'conflict', seq: seq + 1 }] });
    expect(malformed?.status).toBe('rejected');
    expect(fine).toMatchObject({ status: 'fulfilled', value: [{ outcome: 'stored', seq: seq + 2 }] });
    expect((await store.head()).seq).toBe(seq + 2);
  });

  it('are kept one by one when the transaction of all fails (Verifies: LOG-R64)', async () => {
    const log = shelterLog(2);
    await store.append(log.records, noon);
    const db = new SqliteDatabase(join(folder, storeFile));
    db.exec(
      "create trigger refuse before insert on animals when new.animal = 'odd' begin select raise(abort, 'no'); end",
    );
    db.close();
    const odd = log.add([draft('animal-taken-in', 'animal:odd', kitten('Odd', '2026-01-20'), noon)]);
    const fine = log.add([weighed(1, 600, noon)]);
    const [refused, kept] = await Promise.allSettled([store.append(odd, noon), store.append(fine, noon)]);
    expect(refused).toMatchObject({ status: 'rejected', reason: { code: 'failed' } });
    expect(kept).toMatchObject({ status: 'fulfilled', value: [{ outcome: 'stored' }] });
    expect(await store.rows('weighings', { animal: 'kit-1' })).toHaveLength(1);
  });
});
