import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CalendarDate } from '../../src/core/calendar.js';
import { moved } from '../../src/core/clocked.js';
import { flagsIn } from '../../src/log/flags/flags.js';
import { type Draft, draft, type LogRecord } from '../../src/log/record.js';
import type { LogStore } from '../../src/log/store.js';
import { applyToWorld, buildWorld, emptyWorld, type World } from '../../src/log/views/world.js';
import { rowsOf } from '../../src/store/projection.js';
import { type Row, rowText, tableNames } from '../../src/store/read-tables.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { verifyStore } from '../../src/store/verify.js';
import { at, day } from '../support/log.js';
import { everyKind, oneOf } from '../support/one-of-each.js';
import { shelterLog, weighed, wormed } from '../support/shelter-log.js';

const days = ['2026-03-02', '2026-03-20', '2026-06-01'].map(day);

/** What everybody sees: every row of every table and every flag, as of several days, as text. */
const seen = (world: World): string =>
  JSON.stringify(
    days.map((today: CalendarDate) => [
      Object.entries(rowsOf(world, today)).map(([table, rows]) => [
        table,
        [...rows].sort(([a], [b]) => (a < b ? -1 : 1)),
      ]),
      flagsIn(world, today),
    ]),
  );

async function opened(folder: string): Promise<LogStore> {
  const store = await openStore(folder);
  if (!store.ok) throw new Error(JSON.stringify(store.why));
  return store.value;
}

/** Every row of every table as text, in order. */
const sortedRows = (tables: ReturnType<typeof rowsOf>): unknown =>
  tableNames.map((table) => [table, [...tables[table].values()].map((row) => rowText(table, row)).sort()]);

async function rowsIn(store: LogStore): Promise<unknown> {
  await store.upToDate();
  const all: unknown[] = [];
  for (const table of tableNames) {
    const rows = (await store.rows(table)) as unknown as Row[];
    all.push([table, rows.map((row) => rowText(table, row)).sort()]);
  }
  return all;
}

/** The same records as they come from elsewhere: no object of them has been seen before. */
const anew = (records: readonly LogRecord[]): LogRecord[] => structuredClone([...records]);

const hour = (n: number): string =>
  at('2026-03-02', `${String(8 + (n % 12)).padStart(2, '0')}:${n % 2 === 0 ? '00' : '30'}`);
const some = fc.oneof(
  fc.constantFrom(...everyKind).map((kind): Draft => oneOf(kind)),
  fc
    .record({ kit: fc.integer({ min: 1, max: 3 }), grams: fc.integer({ min: 400, max: 900 }), n: fc.nat(23) })
    .map(({ kit, grams, n }) => weighed(kit, grams, hour(n))),
  fc.record({ kit: fc.integer({ min: 1, max: 3 }), n: fc.nat(23) }).map(({ kit, n }) => wormed(kit, hour(n))),
  // Few numbers and several animals, so that they come to be shared.
  fc
    .record({
      kit: fc.integer({ min: 1, max: 3 }),
      code: fc.constantFrom('036012345678901', '036012345678902'),
      occasion: fc.constantFrom('intake' as const, 'before' as const, 'identify' as const),
      n: fc.nat(23),
    })
    .map(({ kit, code, occasion, n }) =>
      draft(
        'chip-scanned',
        `animal:kit-${kit}`,
        { target: 'animal', occasion, found: { raw: code, code, class: 'iso' } },
        hour(n),
      ),
    ),
  fc
    .record({ kit: fc.integer({ min: 1, max: 3 }), label: fc.constantFrom('001', '002', '007'), n: fc.nat(23) })
    .map(({ kit, label, n }) => draft('animal-described', `animal:kit-${kit}`, { label }, hour(n))),
  fc
    .record({
      kit: fc.integer({ min: 1, max: 3 }),
      run: fc.constantFrom('run-1', 'run-2', 'run-1+fiv-test'),
      n: fc.nat(23),
    })
    .map(({ kit, run, n }) => {
      const body = { run, schedule: 'felv-test', volume_ul: 100, usable: true, sample: 'whole-blood' };
      return draft('sample-drawn', `animal:kit-${kit}`, body as never, hour(n));
    }),
  // Weights that no kitten has, by the same scale or another, each soon after the other.
  fc
    .record({
      kit: fc.integer({ min: 1, max: 3 }),
      grams: fc.constantFrom(560, 575, 6000, 6050),
      otherScale: fc.boolean(),
      doubtful: fc.boolean(),
      n: fc.nat(23),
    })
    .map(({ kit, grams, n, ...more }) =>
      draft('animal-weighed', `animal:kit-${kit}`, { grams, entered: `${grams} g`, ...more }, hour(n)),
    ),
  // What is seen and seen no more, of things that hold something.
  fc
    .record({
      kit: fc.integer({ min: 1, max: 3 }),
      code: fc.constantFrom('fever', 'panleukopenia-exposed'),
      state: fc.constantFrom('present' as const, 'absent' as const),
      on: fc.constantFrom('2026-03-01', '2026-03-02'),
      n: fc.nat(23),
    })
    .map(({ kit, code, state, on, n }) =>
      draft('observation-noted', `animal:kit-${kit}`, { code, state, on: day(on) }, hour(n)),
    ),
  fc
    .record({ kit: fc.integer({ min: 1, max: 3 }), section: fc.constantFrom('nursery', 'quarantine'), n: fc.nat(23) })
    .map(({ kit, section, n }) =>
      draft('animal-moved', `animal:kit-${kit}`, { section, kennel: 'N1', from: null } as never, hour(n)),
    ),
  // Who is of the medical team, which what they recorded afterwards is read by.
  fc
    .record({
      person: fc.constantFrom('ines', 'vera'),
      role: fc.constantFrom('volunteer' as const, 'medical' as const),
      n: fc.nat(23),
    })
    .map(({ person, role, n }) => draft('person-described', `person:${person}`, { person, role } as never, hour(n))),
);
const people = ['ines', 'sol', 'vera'] as const;
const devices = ['phone-a', 'phone-b', 'desk-1'] as const;
const step = fc.record({
  what: some,
  who: fc.constantFrom(...people),
  device: fc.constantFrom(...devices),
  corrects: fc.boolean(),
  /** Hours by which the device's clock is ahead, and whether it has measured that. */
  ahead: fc.constantFrom(0, 0, 0, 0.5, 3, 26),
  measured: fc.boolean(),
  sent: fc.boolean(),
});
type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;

/** A log of anything: every kind of record, some of them corrections of an earlier one about the same subject. */
function logOf(steps: readonly Step[]): LogRecord[] {
  const log = shelterLog(3);
  for (const { what, who, device, corrects, ahead, measured, sent } of steps) {
    const earlier = log.records.findLast((one) => one.subject === what.subject && one.kind === what.kind);
    const corrected = corrects && earlier !== undefined ? { ...what, corrects: earlier.id } : what;
    const [plain] = log.add([corrected], who, device) as [LogRecord];
    const ahead_ms = ahead * 3_600_000;
    const clock = measured ? { clock: { ahead_ms, measuredAt: moved(plain.recordedAt, ahead_ms - 1000) } } : {};
    const stamped = { happenedAt: moved(plain.happenedAt, ahead_ms), recordedAt: moved(plain.recordedAt, ahead_ms) };
    const kept = sent ? { seq: log.records.length, receivedAt: plain.recordedAt } : {};
    log.records.splice(-1, 1, { ...plain, ...stamped, ...clock, ...kept });
  }
  return [...log.records];
}

describe('what everybody sees is a function of the records and the day (Verifies: LOG-R8)', () => {
  it('one by one, looked at after each = rebuilt, over every kind and 200 random logs', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 25 }), (steps) => {
        const records = logOf(steps);
        let world = emptyWorld;
        for (const record of records) {
          world = applyToWorld(world, [record]);
          // Whatever is remembered from here on must not be found where it no longer holds.
          flagsIn(world, days[0] as CalendarDate);
          rowsOf(world, days[1] as CalendarDate);
        }
        expect(seen(world)).toBe(seen(buildWorld(anew(records))));
      }),
      { numRuns: 200, seed: 20261128 },
    );
  });

  it('in any order of arrival = rebuilt', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 15 }), fc.infiniteStream(fc.nat()), (steps, chance) => {
        const records = logOf(steps);
        const keys = new Map(records.map((record) => [record.id, chance.next().value as number]));
        const shuffled = [...records].sort((a, b) => (keys.get(a.id) ?? 0) - (keys.get(b.id) ?? 0));
        let world = emptyWorld;
        for (const record of shuffled) {
          // As on the device that wrote it and has sent it: first without its place in the log, then with it.
          const { seq: _, receivedAt: __, ...unsent } = record;
          if (record.seq !== undefined) world = applyToWorld(world, [unsent as LogRecord]);
          world = applyToWorld(world, [record]);
          flagsIn(world, days[0] as CalendarDate);
        }
        expect(seen(world)).toBe(seen(buildWorld(anew(records))));
      }),
      { numRuns: 200, seed: 20261128 },
    );
  });

  it('across restarts, other days, any order and any batches = in memory = rebuilt (Verifies: LOG-R61)', async () => {
    const last = day('2026-03-20');
    const turn = fc.record({
      size: fc.integer({ min: 1, max: 6 }),
      restart: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
      on: fc.constantFrom(...days, null),
    });
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { minLength: 1, maxLength: 15 }),
        fc.infiniteStream(fc.nat()),
        fc.array(turn, { minLength: 1, maxLength: 5 }),
        // On one day, no new day brings up what a new lot or section should have.
        fc.boolean(),
        async (steps, chance, turns, oneDay) => {
          const keyed = logOf(steps).map(
            ({ seq: _, receivedAt: __, ...record }) => [chance.next().value as number, record as LogRecord] as const,
          );
          const records = keyed.sort(([a], [b]) => a - b).map(([, record]) => record);
          const folder = mkdtempSync(join(tmpdir(), 'roundhand-restarts-'));
          let store = await opened(folder);
          try {
            for (let from = 0, n = 0; from < records.length; n += 1) {
              const { size, restart, ...more } = turns[n % turns.length] as (typeof turns)[number];
              const on = oneDay ? last : more.on;
              await store.append(records.slice(from, from + size), at(on ?? '2026-03-02', '13:00'));
              await store.upToDate();
              from += size;
              if (on !== null) await store.append([], at(on, '14:00'));
              if (!restart) continue;
              await store.close();
              store = await opened(folder);
            }
            await store.append([], at(last, '15:00'));
            const kept = (await store.read()) as readonly LogRecord[];
            // A clock that goes back behind the log is not followed.
            const came = kept.map(({ receivedAt }) => receivedAt?.slice(0, 10) ?? '');
            const today = day([...came, last].sort().at(-1) ?? last);
            const should = sortedRows(rowsOf(buildWorld(kept), today));
            expect(await rowsIn(store)).toEqual(should);
            // Every fourth only, as these read and write everything once more.
            if ((chance.next().value as number) % 4 > 0) return;
            const { tables } = await verifyStore(store);
            expect(tables.filter((one) => one.missing + one.extra + one.different > 0)).toEqual([]);
            await store.rebuild(today);
            expect(await rowsIn(store)).toEqual(should);
          } finally {
            await store.close();
            rmSync(folder, { recursive: true });
          }
        },
      ),
      { numRuns: 200, seed: 20261128 },
    );
  });

  it('a variant that is switched on takes an old flag away (it stood on until the next day)', () => {
    const log = shelterLog(1);
    log.add([oneOf('treatment-given')], 'ines');
    const before = buildWorld(log.records);
    flagsIn(before, days[0] as CalendarDate);
    const [switched] = log.add([oneOf('variant-switched')], 'vera');
    const after = applyToWorld(before, switched === undefined ? [] : [switched]);
    expect(seen(after)).toBe(seen(buildWorld(anew(log.records))));
  });

  it('who turns out to have been of the medical team vouches for what was weighed (it would stay doubtful)', () => {
    const log = shelterLog(1);
    log.add([weighed(1, 6000, hour(2)), weighed(1, 6050, hour(3))], 'ines');
    const before = buildWorld(log.records);
    const beyond = (world: World) =>
      flagsIn(world, day('2026-03-02')).filter(({ code }) => code === 'weight-beyond-age').length;
    expect(beyond(before)).toBe(1);
    const [known] = log.add(
      [draft('person-described', 'person:ines', { person: 'ines', role: 'medical' } as never, at('2026-03-01'))],
      'vera',
    );
    const after = applyToWorld(before, known === undefined ? [] : [known]);
    expect(beyond(after)).toBe(0);
    expect(seen(after)).toBe(seen(buildWorld(anew(log.records))));
  });

  it('what was said to be over is told with what waited until then, also when more of that comes in late', () => {
    const log = shelterLog(1);
    const fever = (state: 'present' | 'absent', n: number) =>
      draft('observation-noted', 'animal:kit-1', { code: 'fever', state, on: day('2026-03-02') }, hour(n));
    const held = { schedules: 'all', code: 'vet-hold', from: day('2026-03-02'), until: null } as const;
    log.add([fever('present', 0)], 'sol');
    log.add([fever('absent', 2)], 'ines');
    let world = buildWorld(log.records);
    const told = () => flagsIn(world, day('2026-03-02')).find(({ code }) => code === 'seen-no-more')?.why;
    const first = told();
    expect(first).toMatchObject({ say: 'flag.seen-no-more.due' });
    world = applyToWorld(world, log.add([draft('hold-placed', 'animal:kit-1', held, hour(4))], 'vera'));
    expect(told()).toEqual(first);
    // A hold of before: then nothing came free.
    world = applyToWorld(world, log.add([draft('hold-placed', 'animal:kit-1', held, hour(1))], 'vera'));
    expect(told()).toBeUndefined();
    expect(seen(world)).toBe(seen(buildWorld(anew(log.records))));
  });
});
