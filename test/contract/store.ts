import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { PersonId, RecordId } from '../../src/core/ids.js';
import { noHash, verifyChain } from '../../src/log/hash.js';
import { draft, type LogRecord, parseRecord } from '../../src/log/record.js';
import type { LogStore } from '../../src/log/store.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { emptyProjection, project, rowsOf } from '../../src/store/projection.js';
import { tableNames } from '../../src/store/read-tables.js';
import { verifyStore } from '../../src/store/verify.js';
import { busyLog } from '../support/busy-log.js';
import { at, day } from '../support/log.js';
import { reordered, shelterLog, weighed, wormed } from '../support/shelter-log.js';
import { givesWhatIsHeld } from './held.js';

/** One log in one kind of store, made for one test. */
export interface Opened {
  readonly store: LogStore;
  /** Another opening of the same log, as another program would; null when this kind of store lives in one process. */
  readonly another: (() => Promise<LogStore>) | null;
  /** Clears everything away. */
  readonly dispose: () => Promise<void>;
}

const noon = at('2026-03-02', '12:00');

/** What every store owes (src/log/store.ts), as tests. Run for each kind of store by store.test.ts. */
export function storeContract(kind: string, make: () => Promise<Opened>): void {
  describe(`the log in ${kind}`, () => {
    let made: Opened[] = [];
    const open = async (): Promise<Opened> => {
      const opened = await make();
      made.push(opened);
      return opened;
    };
    afterEach(async () => {
      for (const opened of made) await opened.dispose();
      made = [];
    });

    it('starts empty', async () => {
      const { store } = await open();
      expect(await store.head()).toEqual({ seq: 0, hash: noHash, receivedAt: null, rowsOn: null, stale: 0 });
      expect(await store.read()).toEqual([]);
      expect(await store.rows('animals')).toEqual([]);
      expect((await verifyStore(store)).whole).toBe(true);
    });

    it('keeps records in the order they came, with places from 1 without gaps (Verifies: LOG-R1)', async () => {
      const { store } = await open();
      const { records } = shelterLog();
      const answers = await store.append(records, noon);
      expect(answers.map(({ outcome }) => outcome)).toEqual(records.map(() => 'stored'));
      expect(answers.map(({ seq }) => seq)).toEqual(records.map((_, index) => index + 1));
      const read = await store.read();
      expect(read.map(({ seq }) => seq)).toEqual(records.map((_, index) => index + 1));
      expect(read.map(plain)).toEqual(records.map(plain));
      expect(read.every(({ receivedAt }) => receivedAt === noon)).toBe(true);
      expect(await store.head()).toEqual({
        seq: records.length,
        hash: read.at(-1)?.hash,
        receivedAt: noon,
        rowsOn: day('2026-03-02'),
        stale: 0,
      });
    });

    it('gives a device what it holds, from every place on and cut anywhere (Verifies: LOG-R101)', async () => {
      await givesWhatIsHeld((await open()).store);
    });

    it('gives back every text, number and order of a body unharmed (Verifies: LOG-R1)', async () => {
      const { store } = await open();
      const log = shelterLog();
      const odd = ['00417', '1E5', ' lead and trail ', '€ 𝄞 é e\u0301', 'O\'Brien "x" \\ \n\t', '=1+1', '0', ''];
      const added = log.add(
        odd.map((note, index) =>
          draft('animal-described', 'animal:kit-1', { label: note, notes: note }, at('2026-03-02', `0${index}:00`)),
        ),
        'sol',
      );
      // Who did it, with whom, and who wrote it down.
      const weighed = draft('animal-weighed', 'animal:kit-1', { grams: 640, entered: '640' }, noon);
      const people = { by: PersonId.parse('ines'), with: PersonId.parse('vera') };
      added.push(...log.add([{ ...weighed, ...people }], 'sol'));
      await store.append(log.records, noon);
      const read = await store.read({ after: log.records.length - added.length });
      expect(read.map(plain)).toEqual(added.map(plain));
      expect(read.at(-1)).toMatchObject({ by: 'ines', with: 'vera', writtenBy: 'sol' });
    });

    it('takes a record again without keeping it again, whoever sends it and however often (Verifies: LOG-R2)', async () => {
      const { store } = await open();
      const { records } = shelterLog();
      await store.append(records, noon);
      const before = { read: await store.read(), head: await store.head() };
      const again = await store.append(records, at('2026-03-02', '13:00'));
      expect(again.map(({ outcome, seq }) => [outcome, seq])).toEqual(
        records.map((_, index) => ['already-there', index + 1]),
      );
      const turned = await store.append(records.map(reordered), at('2026-03-02', '14:00'));
      expect(new Set(turned.map(({ outcome }) => outcome))).toEqual(new Set(['already-there']));
      expect({ read: await store.read(), head: await store.head() }).toEqual(before);
    });

    it('takes a record twice in one batch once (Verifies: LOG-R2)', async () => {
      const { store } = await open();
      const [first, second] = shelterLog().records as [LogRecord, LogRecord];
      const answers = await store.append([first, second, first], noon);
      expect(answers.map(({ outcome, seq }) => [outcome, seq])).toEqual([
        ['stored', 1],
        ['stored', 2],
        ['already-there', 1],
      ]);
      expect(await store.read()).toHaveLength(2);
    });

    it('reports the same id with other content and lets the first one count (Verifies: LOG-R4)', async () => {
      const { store } = await open();
      const log = shelterLog();
      await store.append(log.records, noon);
      const [weighing] = log.add([weighed(1, 620, noon)], 'ines') as [LogRecord<'animal-weighed'>];
      await store.append([weighing], noon);
      const other: LogRecord = { ...weighing, body: { ...weighing.body, grams: 260 } };
      const [next] = log.add([weighed(2, 500, noon)], 'ines');
      const answers = await store.append([other, next as LogRecord], noon);
      expect(answers.map(({ outcome }) => outcome)).toEqual(['conflict', 'stored']);
      expect(answers[0]?.seq).toBe(log.records.length - 1);
      const [kept] = await store.read({ after: log.records.length - 2, limit: 1 });
      expect(kept?.body).toMatchObject({ grams: 620 });
      expect(await store.rows('weighings', { animal: 'kit-1' })).toMatchObject([{ grams: 620 }]);
    });

    it('keeps a batch whole or not at all (Verifies: LOG-R5)', async () => {
      const { store } = await open();
      const log = shelterLog();
      await store.append(log.records, noon);
      const before = { read: await store.read(), head: await store.head(), rows: await store.rows('weighings') };
      const batch = log.add([weighed(1, 610, noon), weighed(2, 620, noon)], 'ines');
      const broken = { ...(batch[1] as LogRecord), device: 'half a character \ud800' } as LogRecord;
      await expect(store.append([batch[0] as LogRecord, broken], noon)).rejects.toThrow();
      expect({ read: await store.read(), head: await store.head(), rows: await store.rows('weighings') }).toEqual(
        before,
      );
      expect((await store.append(batch, noon)).map(({ outcome }) => outcome)).toEqual(['stored', 'stored']);
      expect((await verifyStore(store)).whole).toBe(true);
    });

    it('chains every record to the one before it (Verifies: LOG-R3)', async () => {
      const { store } = await open();
      const { records } = shelterLog();
      await store.append(records.slice(0, 5), noon);
      await store.append(records.slice(5), at('2026-03-02', '13:00'));
      const read = await store.read();
      expect(verifyChain(read)).toEqual({ whole: true, end: { seq: records.length, hash: read.at(-1)?.hash } });
      const changed = read.map((one) =>
        one.seq === 3 ? { ...one, body: { ...(one.body as object), name: 'x' } } : one,
      );
      expect(verifyChain(changed)).toMatchObject({ whole: false, brokenAt: 3 });
    });

    it('reads page by page and by subject', async () => {
      const { store } = await open();
      const log = shelterLog();
      log.add([weighed(1, 600, noon), weighed(2, 610, noon), weighed(1, 640, at('2026-03-02', '18:00'))]);
      await store.append(log.records, noon);
      const all = await store.read();
      const paged = [];
      for (let after = 0; ; ) {
        const page = await store.read({ after, limit: 4 });
        if (page.length === 0) break;
        expect(page.length).toBeLessThanOrEqual(4);
        paged.push(...page);
        after = page.at(-1)?.seq ?? after;
      }
      expect(paged).toEqual(all);
      const own = await store.read({ subject: 'animal:kit-1' });
      expect(own.map(({ kind }) => kind)).toEqual(['animal-taken-in', 'animal-weighed', 'animal-weighed']);
      expect(await store.read({ subject: 'animal:kit-1', after: own[0]?.seq ?? 0, limit: 1 })).toEqual([own[1]]);
      expect(await store.read({ after: all.length })).toEqual([]);
    });

    it('gives rows by the values of their columns, in the order of the key', async () => {
      const { store } = await open();
      const log = shelterLog(12);
      log.add([draft('animal-moved', 'animal:kit-2', { section: null, kennel: '' }, noon)], 'sol');
      await store.append(log.records, noon);
      const all = await store.rows('animals');
      expect(all.map(({ animal }) => animal)).toEqual(
        Array.from({ length: 12 }, (_, index) => `kit-${index + 1}`).sort(),
      );
      expect(await store.rows('animals', { section: null })).toMatchObject([{ animal: 'kit-2', label: '002' }]);
      expect(await store.rows('animals', { section: 'nursery', kennel: 'N3' })).toMatchObject([{ animal: 'kit-3' }]);
      expect(await store.rows('animals', { animal: 'nobody' })).toEqual([]);
    });

    it('works out what is due by the signed protocol, for the day of the last append (Verifies: LOG-R6)', async () => {
      const { store } = await open();
      const log = shelterLog();
      await store.append(log.records, noon);
      const due = await store.rows('due_items', { animal: 'kit-1', schedule: 'roundworm' });
      expect(due).toMatchObject([{ status: expect.stringMatching(/due/), protocol: 'starter@1' }]);
      await store.append(log.add([wormed(1, noon)]), noon);
      const after = await store.rows('due_items', { animal: 'kit-1', schedule: 'roundworm' });
      expect(after).toMatchObject([{ status: 'not-yet', dose: 2 }]);
      expect(await store.rows('lots')).toMatchObject([{ lot: 'pyr-1', lot_text: '00417', pieces_left: 39 }]);
    });

    it('brings the read tables to a new day with an empty batch (Verifies: LOG-R6)', async () => {
      const { store } = await open();
      const log = shelterLog(2);
      await store.append([...log.records, ...log.add([wormed(1, noon)])], noon);
      const soon = await store.rows('due_items', { animal: 'kit-1', schedule: 'roundworm' });
      const head = await store.head();
      expect(await store.append([], at('2026-05-01'))).toEqual([]);
      const later = await store.rows('due_items', { animal: 'kit-1', schedule: 'roundworm' });
      expect(soon[0]?.status).toBe('not-yet');
      expect(later[0]?.status).toBe('overdue');
      await store.upToDate();
      expect(await store.head()).toEqual({ ...head, rowsOn: day('2026-05-01') });
      expect((await verifyStore(store)).whole).toBe(true);
    });

    it('counts days in the zone of the shelter, not of the server (Verifies: LOG-R6)', async () => {
      const { store } = await open();
      await store.append(shelterLog(1, 'Pacific/Auckland').records, at('2026-03-02', '12:30'));
      expect((await store.head()).rowsOn).toBe('2026-03-03');
    });

    it('keeps what comes in by a clock that went back, at a time that does not, and says so (Verifies: LOG-R115)', async () => {
      const { store } = await open();
      const log = shelterLog(2);
      await store.append(log.records, noon);
      const before = (await store.head()).seq;
      const slow = log.add([weighed(1, 600, noon)]);
      await store.append(slow, at('2026-03-02', '11:59'));
      const back = log.add([weighed(1, 610, at('2026-03-02', '12:40'))]);
      await store.append(back, at('2026-02-27', '12:00'));
      const right = log.add([weighed(1, 620, at('2026-03-02', '12:50'))]);
      await store.append(right, at('2026-03-02', '13:00'));
      const read = await store.read({ after: before });
      expect(read.map(({ receivedAt, serverBehind_ms }) => [receivedAt, serverBehind_ms])).toEqual([
        [noon, undefined],
        [noon, 3 * 24 * 3_600_000],
        [at('2026-03-02', '13:00'), undefined],
      ]);
      expect((await verifyStore(store)).whole).toBe(true);
      // Sent again, also as it was read from here, it is the same record.
      const again = [...back, parseRecord(read[1])].map(
        (one) => ('ok' in one && one.ok ? one.value : one) as LogRecord,
      );
      expect((await store.append(again, at('2026-03-02', '13:00'))).map(({ outcome }) => outcome)).toEqual([
        'already-there',
        'already-there',
      ]);
      await store.append([], at('2026-02-27', '12:00'));
      expect((await store.head()).rowsOn).toBe('2026-03-02');
    });

    it('reads what is about things of some types only', async () => {
      const { store } = await open();
      await store.append(shelterLog(2).records, noon);
      const subjects = async (types: readonly string[]) =>
        new Set((await store.read({ types })).map(({ subject }) => subject.split(':')[0]));
      expect(await subjects(['person', 'section'])).toEqual(new Set(['person', 'section']));
      expect(await subjects(['animal'])).toEqual(new Set(['animal']));
      expect(await subjects(['round'])).toEqual(new Set());
      const [, second] = await store.read({ types: ['person'] });
      expect(await store.read({ types: ['person'], after: second?.seq ?? 0, limit: 1 })).toHaveLength(1);
    });

    it('lets a correction take the place of what it corrects, both kept (Verifies: LOG-R7)', async () => {
      const { store } = await open();
      const log = shelterLog();
      const [wrong] = log.add([weighed(1, 620, at('2026-03-02', '10:00'))]) as [LogRecord];
      // The second tablet's clock is an hour slow: its correction seems to come before what it corrects.
      const [right] = log.add(
        [{ ...weighed(1, 260, at('2026-03-02', '10:00')), corrects: wrong.id }],
        'sol',
        'tablet-b',
        at('2026-03-02', '09:05'),
      ) as [LogRecord];
      await store.append(log.records, noon);
      expect(await store.rows('weighings', { animal: 'kit-1' })).toMatchObject([{ record: wrong.id, grams: 260 }]);
      expect((await store.read({ subject: 'animal:kit-1' })).map(({ id }) => id)).toEqual(
        expect.arrayContaining([wrong.id, right.id]),
      );
      const undo = draft('record-withdrawn', 'animal:kit-1', { reason: 'wrong kitten' }, noon, wrong.id);
      await store.append(log.add([undo], 'sol'), noon);
      expect(await store.rows('weighings', { animal: 'kit-1' })).toEqual([]);
      expect((await verifyStore(store)).whole).toBe(true);
    });

    it('keeps a correction that comes in before what it corrects (Verifies: LOG-R7)', async () => {
      const { store } = await open();
      const log = shelterLog();
      await store.append(log.records, noon);
      const [wrong] = log.add([weighed(1, 620, noon)]) as [LogRecord];
      const [right] = log.add([{ ...weighed(1, 260, noon), corrects: RecordId.parse(wrong.id) }]) as [LogRecord];
      await store.append([right], noon);
      await store.append([wrong], noon);
      expect(await store.rows('weighings', { animal: 'kit-1' })).toMatchObject([{ record: wrong.id, grams: 260 }]);
    });

    it('has the same read tables however the records were cut into batches, and after a rebuild (Verifies: LOG-R8)', async () => {
      const { records } = busyLog();
      const one = memoryStore();
      await one.append(records, noon);
      const expected = await tablesOf(one);
      await fc.assert(
        fc.asyncProperty(fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 8 }), async (sizes) => {
          const { store, dispose } = await make();
          try {
            for (let from = 0, turn = 0; from < records.length; turn += 1) {
              const size = sizes[turn % sizes.length] ?? 1;
              await store.append(records.slice(from, from + size), noon);
              from += size;
            }
            expect(await tablesOf(store)).toEqual(expected);
            await store.rebuild(day('2026-03-02'));
            expect(await tablesOf(store)).toEqual(expected);
            expect((await verifyStore(store)).whole).toBe(true);
          } finally {
            await dispose();
          }
        }),
        { numRuns: 12 },
      );
    });

    it('has read tables that are what the pure folds say (Verifies: LOG-R8)', async () => {
      const { store } = await open();
      const { records } = busyLog();
      await store.append(records, noon);
      const { world } = project(emptyProjection, await store.read());
      const folded = rowsOf(world, day('2026-03-02'));
      for (const table of tableNames) {
        const rows = await store.rows(table);
        expect(rows, table).toHaveLength(folded[table].size);
        expect(rows, table).toEqual(expect.arrayContaining([...folded[table].values()]));
        // Every table is in play, so that an empty one cannot pass unseen.
        expect(rows.length, table).toBeGreaterThan(0);
      }
    });

    it('lets two programs append in turn without losing or doubling anything (Verifies: LOG-R9)', async () => {
      const { store, another } = await open();
      const other = another === null ? store : await another();
      const log = shelterLog(2);
      await store.append(log.records, noon);
      const mine = Array.from({ length: 30 }, (_, index) =>
        log.add([weighed(1, 600 + index, minute(index))], 'ines', 'phone-a'),
      );
      const theirs = Array.from({ length: 30 }, (_, index) =>
        log.add([weighed(2, 500 + index, minute(index))], 'sol', 'phone-b'),
      );
      const shared = log.add([weighed(1, 999, minute(40))]);
      await Promise.all([
        ...mine.map((batch) => store.append([...batch, ...shared], noon)),
        ...theirs.map((batch) => other.append([...batch, ...shared], noon)),
      ]);
      const read = await store.read();
      expect(read.map(({ seq }) => seq)).toEqual(log.records.map((_, index) => index + 1));
      expect(new Set(read.map(({ id }) => id))).toEqual(new Set(log.records.map(({ id }) => id)));
      expect((await verifyStore(store)).whole).toBe(true);
      expect(await tablesOf(other)).toEqual(await tablesOf(store));
      expect(await other.rows('weighings')).toHaveLength(61);
    });

    it('takes away the rows of what another program brought in (Verifies: LOG-R8, LOG-R9)', async () => {
      const { store, another } = await open();
      const other = another === null ? store : await another();
      const log = shelterLog(2);
      await store.append(log.records, noon);
      const [theirs] = log.add([weighed(1, 620, noon)], 'sol', 'phone-b') as [LogRecord];
      await other.append([theirs], noon);
      const undo = draft('record-withdrawn', 'animal:kit-1', { reason: 'wrong kitten' }, noon, theirs.id);
      await store.append(log.add([undo], 'sol'), noon);
      expect(await store.rows('weighings')).toEqual([]);
      expect(await other.rows('weighings')).toEqual([]);
      expect((await verifyStore(other)).whole).toBe(true);
      await other.append([], at('2026-03-03'));
      await store.append(log.add([weighed(2, 500, noon)]), at('2026-03-02', '13:00'));
      expect((await verifyStore(store)).whole).toBe(true);
    });

    it('finds records by their ids, in order of place, and finds nothing wrong with itself (Verifies: LOG-R15, LOG-R19)', async () => {
      const { store } = await open();
      const log = shelterLog();
      await store.append(log.records, noon);
      const ids = [5, 2, 2].map((at) => log.records[at]?.id ?? ('' as RecordId));
      const found = await store.read({ ids: [...ids, RecordId.parse('not-here')] });
      expect(found.map(({ seq }) => seq)).toEqual([3, 6]);
      expect(await store.read({ ids, after: 3 })).toHaveLength(1);
      expect(await store.read({ ids: [] })).toEqual([]);
      expect(await store.faults()).toEqual([]);
    });

    it('gives nothing away that could change the log', async () => {
      const { store } = await open();
      const log = shelterLog();
      const [first] = log.records;
      await store.append(log.records, noon);
      Object.assign((first as LogRecord).body, { name: 'changed outside' });
      const [read] = await store.read({ limit: 1 });
      try {
        Object.assign((read as { body: object }).body, { name: 'changed outside' });
      } catch {
        // A store may give frozen records.
      }
      expect((await verifyStore(store)).whole).toBe(true);
      expect(parseRecord((await store.read({ limit: 1 }))[0])).toMatchObject({
        value: { body: { name: 'Test nursery' } },
      });
    });

    it('closes twice without harm', async () => {
      const { store } = await open();
      await store.close();
      await store.close();
    });
  });
}

const minute = (index: number): string => at('2026-03-02', `10:${String(index).padStart(2, '0')}`);

const plain = (record: object): unknown => {
  const { seq: _seq, hash: _hash, receivedAt: _receivedAt, ...own } = record as Record<string, unknown>;
  return own;
};

async function tablesOf(store: LogStore): Promise<unknown> {
  await store.upToDate();
  return Object.fromEntries(
    await Promise.all(tableNames.map(async (table) => [table, await store.rows(table)] as const)),
  );
}
