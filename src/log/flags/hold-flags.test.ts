import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { roundLog, viewOf, when } from '../../../test/support/round-log.js';
import type { CalendarDate } from '../../core/calendar.js';
import { placeHold } from '../commands/animal.js';
import type { BodyInput } from '../kinds/index.js';
import { dueIn } from '../views/world.js';
import { animalFlags } from './animal-flags.js';
import { flagsIn } from './flags.js';
import { looksAfter } from './hold-flags.js';

type Log = ReturnType<typeof roundLog>;

const hold = { schedules: 'all', code: 'ill', from: day('2026-03-04'), until: null } as const;
const place = (log: Log, more: Partial<BodyInput<'hold-placed'>> = {}) =>
  log.one('hold-placed', 'animal:kit-1', { ...hold, ...more } as never, when('13:00'));

const told = (log: Log, on: CalendarDate) => {
  const { world, stop } = viewOf(log);
  return animalFlags(stop('kit-1').animal, world.bySubject.get('animal:kit-1') ?? [], world.shelter, on)
    .filter(({ code }) => ['hold-nobodys', 'hold-recheck', 'held-long'].includes(code))
    .map(({ code, for: roles }) => `${code} ${roles.join(' ')}`);
};
const both = 'supervisor medical';

describe('a hold (Verifies: LOG-R192)', () => {
  const at = '2026-03-04T13:00:00.000Z';
  it.each([
    [{ owner: null, recheckOn: day('2026-03-09') }, 'log.hold-needs-owner'],
    [{ owner: 'vera' as never, recheckOn: null }, 'log.hold-needs-day'],
    [{ owner: 'vera' as never, recheckOn: day('2026-03-04') }, 'log.hold-recheck-before-start'],
    [{ owner: 'vera' as never, recheckOn: null, until: day('2026-03-03') }, 'log.hold-ends-before-start'],
  ])('is placed with somebody who looks after it and a day: %j', (more, why) => {
    expect(placeHold('kit-1' as never, { ...hold, ...more } as never, at)).toMatchObject({
      ok: false,
      why: { say: why },
    });
  });

  it('is placed with a name and either day', () => {
    for (const more of [{ recheckOn: day('2026-03-09') }, { until: day('2026-03-04') }]) {
      expect(placeHold('kit-1' as never, { ...hold, owner: 'vera', ...more } as never, at)).toMatchObject({ ok: true });
    }
  });

  it('that nobody looks after is told at once, and one with a name on its day, until it is lifted', () => {
    const nobodys = roundLog({ 'kit-1': ['roundworm'] });
    place(nobodys);
    expect(told(nobodys, day('2026-03-04'))).toEqual([`hold-nobodys ${both}`]);
    const named = roundLog({ 'kit-1': ['roundworm'] });
    const { id } = place(named, { owner: 'vera' as never, recheckOn: day('2026-03-09') });
    expect(told(named, day('2026-03-08'))).toEqual([]);
    expect(told(named, day('2026-03-09'))).toEqual([`hold-recheck ${both}`]);
    named.one('hold-lifted', 'animal:kit-1', { hold: id } as never, when('15:00'));
    expect(told(named, day('2026-03-09'))).toEqual([]);
  });

  it('of somebody who works here no longer is nobody’s', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    place(log, { owner: 'gone' as never, recheckOn: day('2026-03-09') });
    expect(told(log, day('2026-03-04'))).toEqual([`hold-nobodys ${both}`]);
  });

  it('that is over asks nobody', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    place(log, { until: day('2026-03-05') });
    expect(told(log, day('2026-03-06'))).toEqual([]);
  });
});

describe('what waits for longer than the protocol lets it wait (Verifies: PROT-R60)', () => {
  it('is one flag for its reason, again after four weeks, and is owned by whoever takes it', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    place(log, { owner: 'vera' as never, recheckOn: day('2026-03-20') });
    const { world } = viewOf(log);
    const items = (on: CalendarDate) =>
      dueIn(world, world.animals.get('kit-1' as never) as never, on).filter(({ status }) => status === 'on-hold');
    const first = items(day('2026-03-04'))
      .map(({ due }) => due)
      .sort()[0] as CalendarDate;
    expect(first <= day('2026-03-04')).toBe(true);
    // Somebody looks after it until a day that is still to come.
    expect(told(log, day('2026-03-19'))).toEqual([]);
    expect(told(log, day('2026-03-21'))).toEqual([`hold-recheck ${both}`, `held-long ${both}`]);
    const key = (on: CalendarDate) => flagsIn(world, on).find(({ code }) => code === 'held-long')?.key;
    expect(key(day('2026-03-21'))).toBe(key(day('2026-03-22')));
    expect(key(day('2026-04-30'))).not.toBe(key(day('2026-03-21')));
    const [item] = items(day('2026-03-21'));
    expect(looksAfter([], item as never)).toEqual({ person: 'vera', again: day('2026-03-20') });
  });

  it('is owned by whoever took its flag where no person placed it', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    place(log);
    const on = day('2026-03-21');
    const flags = () => flagsIn(viewOf(log).world, on);
    const long = flags().find(({ code }) => code === 'held-long');
    const item = dueIn(viewOf(log).world, viewOf(log).stop('kit-1').animal, on).find(
      ({ status }) => status === 'on-hold',
    );
    expect(looksAfter(flags(), item as never)).toBeNull();
    log.one('flag-taken', `flag:${long?.key}`, { flag: long?.key } as never, when('16:00'), undefined, { by: 'vera' });
    expect(looksAfter(flags(), item as never)).toEqual({ person: 'vera', again: null });
  });
});
