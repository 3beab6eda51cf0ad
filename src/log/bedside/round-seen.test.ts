import { describe, expect, it } from 'vitest';
import { entered, roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { flagsIn } from '../flags/flags.js';
import { roundSeen } from './round-seen.js';
import { standOf } from './stand.js';

const today = roundDay as never;

/** A kitten of 600 g got 0.12 mL of the wormer; `corrections` are what it was made, each by another person's hand. */
function given(...corrections: readonly { readonly ul: number; readonly by: string }[]) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  entered(log);
  log.one('animal-weighed', 'animal:kit-1', { grams: 600, entered: '600 g' } as never, when('13:31'));
  const body = {
    schedule: 'roundworm',
    product: 'pyrantel-50',
    lot: 'pyr-1',
    volume_ul: 120,
    planned_ul: 120,
    grams: 600,
    route: 'by mouth',
    round: roundId,
  };
  const dose = log.one('treatment-given', 'animal:kit-1', body as never, when('13:35'));
  for (const { ul, by } of corrections) {
    const other = { ...body, volume_ul: ul };
    log.one('treatment-given', 'animal:kit-1', other as never, when('13:35'), dose.id as never, { by } as never);
  }
  const { world } = viewOf(log);
  const view = roundSeen(world, roundId as never, today);
  const stop = view?.stops.flatMap(({ animals }) => animals).find(({ animal }) => animal.id === 'kit-1');
  if (view == null || stop === undefined) throw new Error('kit-1 is not on the round');
  return { log, world, dose, view, stand: standOf(stop) };
}

describe('a dose on which a stop stands (Verifies: ROUND-R106)', () => {
  it('is done while nothing stands on it', () => {
    const { stand, view } = given();
    expect(stand).toBe('done');
    expect(view.counts).toMatchObject({ done: 1, abnormal: 0 });
  });

  it('is to be looked at, made far too much and also put right again', () => {
    const far = given({ ul: 20_000, by: 'sol' });
    expect(far.stand).toBe('look');
    expect(far.view.counts).toMatchObject({ done: 0, abnormal: 1 });
    expect(given({ ul: 20_000, by: 'sol' }, { ul: 120, by: 'ines' }).stand).toBe('look');
  });

  it('until somebody has answered the stop', () => {
    const { log, world, dose } = given({ ul: 20_000, by: 'sol' });
    for (const flag of flagsIn(world, today)) {
      if (flag.about !== dose.id) continue;
      const body = { flag: flag.key, answer: 'explained', note: 'Watched.' };
      log.one('flag-answered', `flag:${flag.key}`, body as never, when('14:00'), undefined, { by: 'sol' } as never);
    }
    const view = roundSeen(viewOf(log).world, roundId as never, today);
    expect(view?.counts).toMatchObject({ abnormal: 0 });
  });
});
