import { describe, expect, it } from 'vitest';
import { noon, shelter, value } from '../../test/support/app.js';
import { at } from '../../test/support/log.js';
import { weighed, wormed } from '../../test/support/shelter-log.js';
import { moved } from '../core/clocked.js';
import { type Draft, draft, type LogRecord } from '../log/record.js';

const hour_ms = 3_600_000;
const later = at('2026-03-02', '12:30');

/** The server at noon, told something by a device that is so many hours ahead. */
async function toldAhead(drafts: readonly Draft[], hours: number, by: string, clock?: number) {
  const there = await shelter(1);
  const records = there.log.add(drafts, by).map(
    (record): LogRecord => ({
      ...record,
      happenedAt: moved(record.happenedAt, hours * hour_ms),
      recordedAt: moved(record.recordedAt, hours * hour_ms),
      ...(clock === undefined
        ? {}
        : { clock: { ahead_ms: clock * hour_ms, measuredAt: moved(noon, clock * hour_ms) } }),
    }),
  );
  const send = async (who: string, what: readonly LogRecord[]) =>
    value(await there.as(who).append({ records: [...what] })).outcomes.map((one) => one.problem?.code ?? one.outcome);
  expect(await send(by, records)).toEqual(records.map(() => 'stored'));
  there.time.now = later;
  const codes = async () => (await there.store.rows('flags')).map((flag) => (flag as { code: string }).code);
  return { ...there, records, send, codes };
}

describe('what a device stamps ahead, as the server takes it (Verifies: LOG-R50, LOG-R51)', () => {
  it.each([26, 3])('a weight %i h ahead gives way to one weighed after it came in', async (hours) => {
    const { log, send, store, codes } = await toldAhead([weighed(1, 6200, noon)], hours, 'ines');
    await send('ines', log.add([weighed(1, 640, later)], 'ines', 'phone-b'));
    expect((await store.rows('animals'))[0]).toMatchObject({ weight_g: 640 });
    expect(await codes()).toContain('stamped-ahead');
  });

  it.each([
    [10, undefined, 'stamped-ahead'],
    [24, undefined, 'stamped-ahead'],
    [10, 10, 'clock-fast'],
  ])('a dose %i h ahead (clock measured: %s) is not due again today', async (hours, clock, flag) => {
    const { store, codes } = await toldAhead([wormed(1, noon)], hours, 'ines', clock);
    expect(await store.rows('given')).toMatchObject([{ given_on: '2026-03-02' }]);
    const due = (await store.rows('due_items')).find((row) => (row as { schedule: string }).schedule === 'roundworm');
    expect((due as { earliest: string }).earliest > '2026-03-02').toBe(true);
    expect(await codes()).toContain(flag);
  });

  it('a role ahead is put back by the next word, and the one put back may do no more', async () => {
    const person = (role: string, when: string): Draft =>
      draft('person-described', 'person:ines', { person: 'ines', role } as never, when);
    const { log, send, codes } = await toldAhead([person('supervisor', noon)], 26, 'sol');
    expect(await codes()).toContain('stamped-ahead');
    expect(await send('sol', log.add([person('volunteer', later)], 'sol', 'desk-1'))).toEqual(['stored']);
    expect(await send('ines', log.add([person('supervisor', later)], 'ines', 'phone-b'))).toEqual([
      'record-not-allowed',
    ]);
  });

  it('keeps and gives out what was written, and takes the same again as the same', async () => {
    const { as, records, send } = await toldAhead([weighed(1, 620, noon)], 26, 'ines');
    const kept = value(await as('ines').records({ after: 0, limit: 500 })).records.at(-1);
    expect(kept).toMatchObject(records[0] ?? {});
    expect(kept).not.toHaveProperty('said');
    expect(await send('ines', records)).toEqual(['already-there']);
  });
});
