import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at, day, testLog } from '../../../test/support/log.js';
import { effective, replacedIn } from './effective.js';

const weighed = (grams: number) => ({ grams, entered: `${grams} g` });

describe('records as they stand after corrections', () => {
  it('lets a correction win over a device whose clock was an hour fast (Verifies: LOG-R5)', () => {
    const log = testLog();
    // Tablet A is one hour fast: at real 10:00 it writes 11:00. Phone B corrects at 10:05.
    const wrong = log.one('animal-weighed', 'animal:pip', weighed(620), at('2026-03-01', '11:00'));
    log.one('animal-weighed', 'animal:pip', weighed(260), at('2026-03-01', '10:05'), wrong.id, { device: 'phone-b' });
    const standing = effective(log.records);
    expect(standing.map((record) => record.kind === 'animal-weighed' && record.body.grams)).toEqual([260]);
    expect(standing[0]?.id).toBe(wrong.id);
    expect(log.records).toHaveLength(2);
  });

  it('leaves a withdrawn record out and keeps what was not withdrawn (Verifies: LOG-R5)', () => {
    const log = testLog();
    const first = log.one('animal-weighed', 'animal:pip', weighed(300), at('2026-03-01'));
    log.one('animal-weighed', 'animal:pip', weighed(310), at('2026-03-02'));
    log.one('record-withdrawn', 'animal:pip', { reason: 'other kitten' }, at('2026-03-02'), first.id);
    expect(effective(log.records).map((record) => record.happenedAt)).toEqual([at('2026-03-02')]);
  });

  it('follows a correction of a correction to the first record', () => {
    const log = testLog();
    const first = log.one('animal-weighed', 'animal:pip', weighed(300), at('2026-03-01', '09:00'));
    const second = log.one('animal-weighed', 'animal:pip', weighed(301), at('2026-03-01', '09:10'), first.id);
    log.one('animal-weighed', 'animal:pip', weighed(302), at('2026-03-01', '09:20'), second.id);
    const [standing, ...rest] = effective(log.records);
    expect(rest).toEqual([]);
    expect(standing?.kind === 'animal-weighed' && standing.body.grams).toBe(302);
    expect(standing?.id).toBe(first.id);
  });

  it('takes the last of a chain of corrections in whatever order they came in (Verifies: LOG-R130)', () => {
    const log = testLog();
    const first = log.one('animal-weighed', 'animal:pip', weighed(901), at('2026-03-01', '09:00'));
    const second = log.one('animal-weighed', 'animal:pip', weighed(902), at('2026-03-01', '09:10'), first.id);
    const third = log.one('animal-weighed', 'animal:pip', weighed(903), at('2026-03-01', '09:20'), second.id);
    const orders = [
      [first, second, third],
      [first, third, second],
      [second, first, third],
      [second, third, first],
      [third, first, second],
      [third, second, first],
    ];
    for (const order of orders) {
      const came = order.map((record, place) => ({ ...record, seq: place + 1 }));
      const [standing] = effective(came);
      expect(standing?.kind === 'animal-weighed' && standing.body.grams).toBe(903);
    }
  });

  it('names for each record that does not stand the one said next, along a chain and between rivals (Verifies: LOG-R5)', () => {
    const log = testLog();
    const first = log.one('animal-weighed', 'animal:pip', weighed(901), at('2026-03-01', '09:00'));
    const second = log.one('animal-weighed', 'animal:pip', weighed(902), at('2026-03-01', '09:10'), first.id);
    const rival = log.one('animal-weighed', 'animal:pip', weighed(903), at('2026-03-01', '09:20'), first.id);
    // One about another animal takes no place here: both stand.
    const beside = log.one('animal-weighed', 'animal:pop', weighed(904), at('2026-03-01', '09:30'), first.id);
    const replaced = replacedIn(log.records);
    expect([...replaced].map(([id, by]) => [id, by.id])).toEqual([
      [first.id, second.id],
      [second.id, rival.id],
    ]);
    const standing = effective(log.records).map(({ body }) => (body as { grams: number }).grams);
    expect(standing).toEqual([903, 904]);
    expect(replaced.has(beside.id)).toBe(false);
  });

  it('lets something recorded as given be corrected to not given', () => {
    const log = testLog();
    const given = log.one(
      'treatment-given',
      'animal:pip',
      { schedule: null, product: 'pyrantel-50' as never, lot: null, volume_ul: 70, route: 'by mouth' },
      at('2026-03-01'),
    );
    log.one(
      'treatment-not-given',
      'animal:pip',
      { schedule: 'roundworm' as never, reason: 'refused-or-escaped' },
      at('2026-03-01', '09:30'),
      given.id,
    );
    expect(effective(log.records).map((record) => record.kind)).toEqual(['treatment-not-given']);
  });

  it('lets no record take the place of one that other people may write, nor of one about something else (Verifies: LOG-R15)', () => {
    const log = testLog();
    const hold = { schedules: 'all' as const, code: 'vet-hold', from: day('2026-03-01'), until: null };
    const held = log.one('hold-placed', 'animal:pip', hold, at('2026-03-01'));
    log.one('animal-weighed', 'animal:pip', weighed(300), at('2026-03-01', '10:00'), held.id);
    log.one('record-withdrawn', 'animal:moo', { reason: 'sly' }, at('2026-03-01', '11:00'), held.id);
    const gone = log.one('hold-placed', 'animal:pip', hold, at('2026-03-01', '12:00'));
    const undone = log.one('record-withdrawn', 'animal:pip', { reason: 'wrong' }, at('2026-03-01', '13:00'), gone.id);
    log.one('animal-weighed', 'animal:pip', weighed(301), at('2026-03-01', '14:00'), undone.id);
    expect(effective(log.records).map(({ kind }) => kind)).toEqual(['hold-placed', 'animal-weighed', 'animal-weighed']);
    // Whoever may place a hold may put a withdrawn one back.
    log.one('hold-placed', 'animal:pip', hold, at('2026-03-01', '15:00'), undone.id);
    expect(effective([...log.records]).filter(({ kind }) => kind === 'hold-placed')).toHaveLength(2);
  });

  it('gives the same answer whatever the order of arrival (Verifies: LOG-R4)', () => {
    const log = testLog();
    const first = log.one('animal-weighed', 'animal:pip', weighed(300), at('2026-03-01'));
    log.one('animal-weighed', 'animal:pip', weighed(305), at('2026-03-01', '10:00'), first.id);
    log.one('animal-weighed', 'animal:pip', weighed(306), at('2026-03-01', '10:01'), first.id, { device: 'b' });
    const second = log.one('animal-weighed', 'animal:pip', weighed(330), at('2026-03-03'));
    log.one('record-withdrawn', 'animal:pip', { reason: 'typed twice' }, at('2026-03-03', '11:00'), second.id);
    log.one('animal-weighed', 'animal:pip', weighed(331), at('2026-03-03', '09:01'));
    const expected = effective(log.records);
    fc.assert(
      fc.property(fc.shuffledSubarray(log.records, { minLength: log.records.length }), (shuffled) => {
        expect(effective(shuffled)).toEqual(expected);
      }),
    );
  });

  it('does not run for ever on records that correct each other', () => {
    const log = testLog();
    const a = log.one('animal-weighed', 'animal:pip', weighed(300), at('2026-03-01'), 'rec-00002' as never);
    log.one('animal-weighed', 'animal:pip', weighed(301), at('2026-03-01', '10:00'), a.id);
    expect(effective(log.records).length).toBeGreaterThan(0);
  });
});
