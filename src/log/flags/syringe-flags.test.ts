import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { drawn, entered, roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { prepareSyringes } from '../commands/shelter.js';
import { lotUse } from '../stock/lots.js';
import { readySyringesLeft } from '../stock/ready-syringes.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof roundLog>;

const made = { lotText: 'R1', count: 6, with: 'heparin (invented)', withLot: 'H1', syringeLot: 'box-1' as never };
/** Made ready at 08:30 by Sol, to be used until noon unless told otherwise. */
function prepared(log: Log, keepsUntil: string | null = when('12:00')): void {
  const box = { of: { is: 'syringe', syringe: 'tuberculin-1' }, lotText: 'box-1', expires: null, pieces: 100 };
  log.one('lot-received', 'lot:box-1', box as never, when('08:00'));
  const drafts = prepareSyringes('ready-1' as never, { ...made, keepsUntil }, when('08:30'));
  if (!drafts.ok) throw new Error(drafts.why.say);
  log.add(drafts.value, 'sol');
}
const flagged = (log: Log): string[] =>
  flagsIn(buildWorld(log.records), day(roundDay))
    .map(({ code }) => code)
    .filter((code) => /^drawn-|^syringe-/.test(code));

describe('syringes made ready here (Verifies: LOG-R72)', () => {
  it('are a lot that says by whom, when, with what and until when; the empty ones have left their box', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    prepared(log);
    const { world } = viewOf(log);
    const lot = world.shelter.lots.get('ready-1' as never);
    expect(lot).toMatchObject({
      lotText: 'R1',
      pieces: 6,
      expires: roundDay,
      receivedAt: when('08:30'),
      prepared: { by: 'sol', with: 'heparin (invented)', withLot: 'H1', keepsUntil: when('12:00') },
    });
    expect(readySyringesLeft(world, day(roundDay))).toBe(6);
    expect(lotUse(world).get('box-1' as never)?.left).toBe(94);
  });

  it('are not made ready to keep no time at all', () => {
    const keeps = (keepsUntil: string | null) =>
      prepareSyringes('ready-1' as never, { ...made, keepsUntil }, when('08:30')).ok;
    expect([keeps(when('08:30')), keeps(when('08:31')), keeps(null)]).toEqual([false, true, true]);
  });

  it('that are past their hour are drawn with all the same, and flagged', () => {
    const log = roundLog({ 'kit-1': ['felv-test'], 'kit-2': ['felv-test'] });
    prepared(log, when('13:33'));
    entered(log);
    drawn(log, 1, '13:33', { syringeLot: 'ready-1' });
    expect(flagged(log)).toEqual([]);
    drawn(log, 2, '13:34', { syringeLot: 'ready-1' });
    expect(flagged(log)).toEqual(['drawn-past']);
    const [flag] = flagsIn(buildWorld(log.records), day(roundDay)).filter(({ code }) => code === 'drawn-past');
    expect(flag).toMatchObject({ animal: 'kit-2', for: ['supervisor', 'medical'] });
    expect(flag?.why.with).toMatchObject({ lot: 'R1', until: { instant: when('13:33') } });
    expect(viewOf(log).stop('kit-2').animal.runs[0]?.drawnAt).toBe(when('13:34'));
  });

  it('of which nobody said how long they keep are past no hour', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    prepared(log, null);
    drawn(log, 1, '23:00', { syringeLot: 'ready-1' });
    expect(flagged(log)).toEqual([]);
  });

  it('like those of a box that was called back, are told of where they were used', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    prepared(log);
    const dose = { schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'oral' };
    const with_ = { syringe: 'tuberculin-1', syringeLot: 'box-1', round: roundId };
    log.one('treatment-given', 'animal:kit-1', { ...dose, ...with_ } as never, when('13:40'));
    expect(flagged(log)).toEqual([]);
    log.one('lot-withdrawn', 'lot:box-1', { why: 'recalled' }, when('15:00'));
    expect(flagged(log)).toEqual(['syringe-withdrawn']);
  });
});
