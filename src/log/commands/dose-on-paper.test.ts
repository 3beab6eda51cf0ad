import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { shelterLog } from '../../../test/support/shelter-log.js';
import { PersonId, RoundId, ScheduleId } from '../../core/ids.js';
import { flagsIn } from '../flags/flags.js';
import { type DrawUp, drawUpsFor } from '../prepare/draw-ups.js';
import { buildWorld } from '../views/world.js';
import { weighAnimal } from './animal.js';
import { doseOnPaper, type Given } from './dose-on-paper.js';
import { give } from './round.js';

const cat = animalId('kit-1');
const schedule = ScheduleId.parse('roundworm');
const today = day('2026-03-20');
const when = (time: string): string => at('2026-03-20', time);

/** The roundworm line of a kitten that was weighed on these days. */
function lineAfter(...weighed: readonly (readonly [string, number])[]): {
  log: ReturnType<typeof shelterLog>;
  line: DrawUp;
} {
  const log = shelterLog(1);
  for (const [on, grams] of weighed) log.add(weighAnimal(cat, { grams, entered: String(grams) }, at(on, '08:00')));
  const [line] = drawUpsFor(buildWorld(log.records), [{ animal: cat, schedules: [schedule] }], when('10:00'));
  if (line === undefined) throw new Error('not due');
  return { log, line };
}
const onPaper = (given: Given, printed: DrawUp, current: DrawUp, volume_ul: number | null = null) =>
  doseOnPaper({
    schedule,
    round: RoundId.parse('paper'),
    given,
    printed,
    current,
    volume_ul,
    pieces: '',
    by: PersonId.parse('ines'),
    role: 'volunteer',
  });

describe('a dose on paper', () => {
  const fresh = lineAfter(['2026-03-20', 800]);
  const stale = lineAfter(['2026-03-02', 700]);

  it('printed as "ask" is flagged as given past a stop, also when the animal was weighed since (Verifies: SHEET-R21)', () => {
    expect(stale.line.dose.stopped).toBe(true);
    expect(fresh.line.dose.stopped).toBe(false);
    for (const current of [stale.line, fresh.line]) {
      const body = onPaper('other', stale.line, current, 160);
      expect(body.passed).toEqual([{ gate: 'weight-stale', how: 'no-word-on-paper', by: 'ines' }]);
      const { log } = lineAfter(['2026-03-02', 700]);
      log.add(give(cat, body, when('10:00')));
      const codes = flagsIn(buildWorld(log.records), today).map(({ code }) => code);
      expect(codes).toContain('gate-passed');
    }
    expect(onPaper('as-printed', fresh.line, fresh.line).passed).toEqual([]);
  });

  it('by somebody who may not give it is flagged too, also as printed (Verifies: SHEET-R21)', () => {
    const product = { ...fresh.line.product, mayGive: ['medical' as const] };
    const { passed } = onPaper('as-printed', { ...fresh.line, product }, { ...fresh.line, product });
    expect(passed).toEqual([{ gate: 'not-yours-to-give', how: 'no-word-on-paper', by: 'ines' }]);
  });

  it('has no place on the animal, and a syringe only as printed (Verifies: SHEET-R22)', () => {
    const printed = onPaper('as-printed', fresh.line, fresh.line);
    expect(printed).toMatchObject({ site: '', volume_ul: 160, syringe: fresh.line.dose.drawn?.syringe });
    expect(printed.syringe).not.toBeNull();
    const topical = { ...fresh.line, product: { ...fresh.line.product, site: 'base of the neck' } };
    expect(onPaper('as-printed', topical, topical).site).toBe('');
    expect(onPaper('other', topical, topical, 150)).toMatchObject({ site: '', syringe: null });
  });
});

describe('an amount of which none was planned (Verifies: SHEET-R20)', () => {
  const codesOf = (product: string, volume_ul: number, grams: number): string[] => {
    const log = shelterLog(1);
    log.add(weighAnimal(cat, { grams, entered: String(grams) }, when('08:00')));
    const body = { schedule: null, product: product as never, lot: null, volume_ul, grams, route: 'by mouth' };
    log.add(give(cat, body, when('10:00')));
    return flagsIn(buildWorld(log.records), today).flatMap(({ code }) => (code === 'outside-limits' ? [code] : []));
  };
  it.each([
    ['doxycycline-10', 7400, 743, ['outside-limits']],
    ['doxycycline-10', 740, 743, []],
    ['saline-0-9', 60_000, 575, ['outside-limits']],
    ['saline-0-9', 5750, 575, []],
  ] as const)('%s, %i microlitres at %i g: %o', (product, volume_ul, grams, expected) => {
    expect(codesOf(product, volume_ul, grams)).toEqual(expected);
  });
});
