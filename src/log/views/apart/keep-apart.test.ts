import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { flagsIn } from '../../flags/flags.js';
import type { BodyInput } from '../../kinds/index.js';
import { buildWorld } from '../world.js';
import { seenThatKeepsApart } from './keep-apart.js';

type Log = ReturnType<typeof ward>;
const on = day('2026-03-10');

function withPip(): Log {
  const log = ward();
  log.take('pip', '2026-01-20', { section: 'quarantine' as never });
  return log;
}
const noted = (log: Log, code: string, more: Partial<BodyInput<'observation-noted'>> = {}, time = '09:00') =>
  log.one('observation-noted', 'animal:pip', { code, state: 'present', on, ...more }, at(on, time));
const moved = (log: Log, section = 'kittens-one', date: string = on, time = '12:00') =>
  log.one('animal-moved', 'animal:pip', { section: section as never, kennel: '1' }, at(date, time));
const flags = (log: Log) => flagsIn(buildWorld(log.records), on).filter(({ code }) => code === 'moved-too-clean');

describe('a move to a section cleaner than the animal may be in (Verifies: ROUND-R63)', () => {
  it.each(['panleukopenia-exposed', 'bite-observation', 'ringworm-suspected', 'ill'])('is flagged: %s', (code) => {
    const log = withPip();
    noted(log, code);
    const move = moved(log);
    expect(flags(log)).toMatchObject([{ severity: 'stop', about: move.id, for: ['supervisor', 'medical'] }]);
  });

  it('goes by the section that the protocol names: quarantine will do for one exposed, not for one ill', () => {
    const flagged = (code: string): number => {
      const log = withPip();
      noted(log, code);
      moved(log, 'quarantine');
      return flags(log).length;
    };
    expect([flagged('panleukopenia-exposed'), flagged('ill')]).toEqual([0, 1]);
  });

  it('is judged by what stood then: over, not yet, or said not to be so is nothing to see', () => {
    const over = withPip();
    noted(over, 'panleukopenia-exposed', { on: day('2026-02-20'), until: day('2026-03-05') });
    moved(over);
    const later = withPip();
    moved(later, 'kittens-one', on, '08:00');
    noted(later, 'ill');
    const well = withPip();
    noted(well, 'ill');
    noted(well, 'ill', { state: 'absent' }, '11:00');
    moved(well);
    expect([flags(over), flags(later), flags(well)]).toEqual([[], [], []]);
    noted(well, 'ill', {}, '13:00');
    expect(flags(well)).toEqual([]);
  });

  it('stays flagged when what was seen is taken back after the move', () => {
    const log = withPip();
    const seen = noted(log, 'ill');
    moved(log);
    log.one('record-withdrawn', 'animal:pip', { reason: 'A slip.' }, at(on, '13:00'), seen.id);
    expect(flags(log)).toHaveLength(1);
  });

  it('is the same judgement as the one that screens show', () => {
    const log = withPip();
    noted(log, 'panleukopenia-exposed', { until: day('2026-03-22') });
    const { animals, ground } = buildWorld(log.records);
    const pip = animals.get(animalId('pip'));
    if (pip === undefined) throw new Error('no Pip');
    const codes = (date: string) => seenThatKeepsApart(pip, ground, day(date)).map(({ code }) => code);
    expect([codes('2026-03-22'), codes('2026-03-23')]).toEqual([['panleukopenia-exposed'], []]);
  });
});
