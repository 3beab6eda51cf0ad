import { describe, expect, it } from 'vitest';
import { drawn, entered, roundDay, roundId, roundLog, started, viewOf, when } from '../../../test/support/round-log.js';
import { flagsIn } from '../flags/flags.js';
import { leftBehind, throwAway } from './left-behind.js';
import { standOf } from './stand.js';

const lines = { 'kit-1': ['felv-test'], 'kit-2': ['roundworm'], 'kit-3': ['felv-test', 'roundworm'] };
type Log = ReturnType<typeof roundLog>;

function behind(log: Log) {
  const [at] = viewOf(log).view.stops;
  if (at === undefined) throw new Error('the round has no section');
  const { drawn: blood, open } = leftBehind(at);
  return { blood, ids: { drawn: blood.map(({ animal }) => animal.id), open: open.map(({ animal }) => animal.id) } };
}

describe('what is left behind in a section (Verifies: ROUND-R105)', () => {
  it('has the animals whose blood is drawn apart from those that are open', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 1, '13:34');
    drawn(log, 3, '13:36');
    expect(behind(log).ids).toEqual({ drawn: ['kit-1', 'kit-3'], open: ['kit-2', 'kit-3'] });
    started(log, 1, '13:37');
    expect(behind(log).ids.drawn).toEqual(['kit-3']);
  });

  it('names a chip that is in and was not scanned since (Verifies: ROUND-R108)', () => {
    const log = roundLog({ 'kit-1': ['chip'], 'kit-2': ['chip'] });
    entered(log);
    const implant = { code: '900000000000303', site: 'between-shoulder-blades', packScan: null, round: roundId };
    log.one('chip-implanted', 'animal:kit-1', implant as never, when('13:42'));
    const { view, stop } = viewOf(log);
    const [at] = view.stops;
    if (at === undefined) throw new Error('the round has no section');
    expect(leftBehind(at).unread.map(({ animal }) => animal.id)).toEqual(['kit-1']);
    expect([standOf(stop('kit-1')), standOf(stop('kit-2'))]).toEqual(['chip-in', 'open']);
  });

  it('thrown away, the blood is on record and flagged, and only a new draw is open', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 3, '13:36');
    const [stop] = behind(log).blood;
    if (stop === undefined) throw new Error('no blood is drawn');
    log.add(throwAway(stop, roundId as never, 'Thrown away.', when('13:50')));
    expect(behind(log).ids).toEqual({ drawn: [], open: ['kit-1', 'kit-2', 'kit-3'] });
    const { world } = viewOf(log);
    const told = flagsIn(world, roundDay as never).map(({ code }) => code);
    expect(told).toContain('draw-unused');
  });
});
