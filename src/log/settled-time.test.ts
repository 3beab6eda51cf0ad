import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../test/support/log.js';
import { shelterLog, weighed, wormed } from '../../test/support/shelter-log.js';
import { moved } from '../core/clocked.js';
import { clocked } from './device-clock.js';
import { flagsIn } from './flags/flags.js';
import { type Draft, draft, type LogRecord } from './record.js';
import { settled, settledNow } from './settled-time.js';
import { buildWorld, dueIn } from './views/world.js';

const noon = at('2026-03-02', '12:00');
const today = day('2026-03-02');
const hour_ms = 3_600_000;
const cameIn = (record: LogRecord, receivedAt = noon): LogRecord => ({ ...record, receivedAt });

/** The shelter, and things written by a device so many hours ahead that came in at noon. */
function told(drafts: readonly Draft[], hours: number, by = 'ines', clock?: number) {
  const log = shelterLog(1);
  const own = log.records.splice(0);
  const stamped = log.add(drafts, by).map(
    (record): LogRecord => ({
      ...cameIn(record),
      happenedAt: moved(record.happenedAt, hours * hour_ms),
      recordedAt: moved(record.recordedAt, hours * hour_ms),
      ...(clock === undefined
        ? {}
        : { clock: { ahead_ms: clock * hour_ms, measuredAt: moved(noon, clock * hour_ms - 1000) } }),
    }),
  );
  return { log, stamped, records: [...own.map((one) => cameIn(one)), ...stamped] };
}
const flagged = (records: readonly LogRecord[], code = 'stamped-ahead') =>
  flagsIn(buildWorld(records), today).filter((flag) => flag.code === code);
const kit = (records: readonly LogRecord[]) => {
  const animal = buildWorld(records).animals.get(animalId('kit-1'));
  if (animal === undefined) throw new Error('no kitten');
  return animal;
};

describe('nothing happened later than it came in (Verifies: LOG-R50, LOG-R51)', () => {
  it.each([26, 3])('a weight stamped %i h ahead does not stand over a later one', (hours) => {
    const { log, records } = told([weighed(1, 6200, noon)], hours);
    const [later] = log.add([weighed(1, 640, at('2026-03-02', '12:30'))], 'ines', 'phone-b') as [LogRecord];
    const all = [...records, cameIn(later, at('2026-03-02', '12:31'))];
    expect(kit(all).weighings.map(({ at: when, grams }) => [when, grams])).toEqual([
      [noon, 6200],
      [at('2026-03-02', '12:30'), 640],
    ]);
    const [flag] = flagged(all);
    expect(flag).toMatchObject({ severity: 'attention', by: 'ines', animal: 'kit-1' });
    expect(flag?.why).toMatchObject({
      with: { device: 'phone-a', ahead: { with: { n: hours } }, at: { instant: noon } },
    });
  });

  it.each([
    ['10 h', 10, undefined],
    ['24 h', 24, undefined],
    ['10 h by its own measured clock', 10, 10],
    ['more than it had measured', 24, 10],
  ])('a dose stamped ahead by %s is given, and its line no longer due', (_, hours, clock) => {
    const due = (records: readonly LogRecord[]) => {
      const world = buildWorld(records);
      return dueIn(world, kit(records), today).find((one) => one.schedule === 'roundworm')?.due;
    };
    const { records } = told([wormed(1, noon)], hours, 'ines', clock);
    const inTime = told([wormed(1, noon)], 0).records;
    expect(due(records)).toBe(due(inTime));
    expect(due(records)).not.toBe(due(inTime.slice(0, -1)));
    expect(flagged(records)).toHaveLength(clock === hours ? 0 : 1);
    expect(flagged(records, 'clock-fast')).toHaveLength(clock === hours ? 1 : 0);
  });

  it('neither a person, a document, a hold nor a move rules until its day, and each is flagged', () => {
    const person = (role: string) => draft('person-described', 'person:ines', { person: 'ines', role } as never, noon);
    const sign = { document: 'protocol', id: 'other', version: '1', signer: 'Vera', licence: 'Invented 1' };
    const said: Draft[] = [
      person('supervisor'),
      draft('document-signed', 'document:other', { ...sign, on: today, statement: '' } as never, noon),
      draft(
        'hold-placed',
        'animal:kit-1',
        { schedules: 'all', code: 'vet-hold', from: today, until: null } as never,
        noon,
      ),
      draft('animal-moved', 'animal:kit-1', { section: 'quarantine', kennel: 'Q1' } as never, noon),
    ];
    const { log, records } = told(said, 26, 'vera');
    expect(flagged(records).map(({ by }) => by)).toEqual(['vera', 'vera', 'vera', 'vera']);
    const after = at('2026-03-02', '13:00');
    const back = [
      draft('person-described', 'person:ines', { person: 'ines', role: 'volunteer' } as never, after),
      draft('animal-moved', 'animal:kit-1', { section: 'nursery', kennel: 'N1' } as never, after),
    ];
    const all = [...records, ...log.add(back, 'sol', 'desk-1').map((one) => cameIn(one, after))];
    expect(buildWorld(all).shelter.people.find(({ id }) => id === 'ines')?.role).toBe('volunteer');
    expect(kit(all).section).toBe('nursery');
  });

  it('a correction that leaves the time leaves it settled; one that puts it right takes the flag away', () => {
    const { log, records, stamped } = told([weighed(1, 6200, noon)], 26);
    const [wrong] = stamped as [LogRecord];
    const correct = (when: string): LogRecord => {
      const [one] = log.add([{ ...weighed(1, 620, when), corrects: wrong.id }], 'sol', 'desk-1') as [LogRecord];
      return cameIn(one, at('2026-03-04'));
    };
    const same = [...records, correct(wrong.happenedAt)];
    expect(kit(same).weighings).toMatchObject([{ at: noon, grams: 620 }]);
    expect(flagged(same)).toHaveLength(1);
    const right = [...records, correct(at('2026-03-02', '11:00'))];
    expect(kit(right).weighings).toMatchObject([{ at: at('2026-03-02', '11:00'), grams: 620 }]);
    expect(flagged(right)).toEqual([]);
  });

  it('leaves alone what is within two minutes, behind, or has not come in; what was written stays beside', () => {
    const [record] = told([weighed(1, 620, noon)], 0).stamped as [LogRecord];
    const slow = { ...record, clock: { ahead_ms: -hour_ms, measuredAt: noon } };
    const near = { ...record, happenedAt: moved(noon, 120_000) };
    const { receivedAt: _, ...unsent } = { ...record, happenedAt: moved(noon, hour_ms) };
    for (const one of [record, slow, near, unsent as LogRecord]) expect(settled(one)).toBe(one);
    const past = { ...record, happenedAt: moved(noon, 120_001), recordedAt: moved(noon, 125_000) };
    expect(settled(past)).toMatchObject({ happenedAt: noon, recordedAt: noon, said: { happenedAt: past.happenedAt } });
    expect(settled(settled(past))).toEqual(settled(past));
    // What is timed by two clocks is still timed by the one that was written down.
    expect(clocked(settled(past))).toEqual(clocked(past));
  });

  it('a device that knows its clock to be fast holds what is on record against the right time', () => {
    const own = { device: 'phone-a', ahead_ms: 43 * 60_000, sure: true };
    expect(settledNow(own, noon)).toBe(at('2026-03-02', '11:17'));
    expect(settledNow({ ...own, sure: false }, noon)).toBe(noon);
    expect(settledNow({ ...own, ahead_ms: -1 }, noon)).toBe(noon);
  });
});
