import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf } from '../../../test/support/round-log.js';
import { lineNow, whyWait } from '../../log/bedside/line-now.js';
import { nextStep } from '../../log/bedside/next-step.js';
import type { BodyInput } from '../../log/kinds/index.js';
import { drawUpsFor, wantedOfRound } from '../../log/prepare/draw-ups.js';
import { chipCourse } from '../../log/views/chips/chip-course.js';
import { say } from '../../words/say.js';
import { lineStateText } from './line-state.js';

const now = at(roundDay, '13:40');
const code = '900000000000017';
const worm = { schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'by mouth' };

/** One kitten in each state: held, given at the desk, due later, chip in, weight doubtful, plain, left, done on the round. */
function inAllStates() {
  const log = roundLog(
    {
      'kit-1': ['roundworm'],
      'kit-2': ['roundworm'],
      'kit-3': ['core-vaccine'],
      'kit-4': ['chip'],
      'kit-5': ['roundworm'],
      'kit-6': ['roundworm'],
      'kit-7': ['roundworm'],
      'kit-8': ['roundworm'],
      'kit-9': ['roundworm'],
      'kit-10': ['chip'],
    },
    10,
  );
  for (const kit of [1, 2, 6, 7, 8, 9]) {
    log.one('animal-weighed', `animal:kit-${kit}`, { grams: 620, entered: '620 g' }, at(roundDay, '12:00'));
  }
  const doubtful = { grams: 620, entered: '620 g', doubtful: true };
  log.one('animal-weighed', 'animal:kit-5', doubtful, at(roundDay, '11:00'));
  const hold = {
    schedules: 'all' as const,
    code: 'ill',
    from: day(roundDay),
    until: day('2026-03-09'),
    note: 'Fever.',
  };
  log.one('hold-placed', 'animal:kit-1', hold, at(roundDay, '13:10'), undefined, { by: 'vera' });
  const give = (kit: number, body: object, when: string, by: string): void => {
    log.one('treatment-given', `animal:kit-${kit}`, body as BodyInput<'treatment-given'>, when, undefined, { by });
  };
  give(2, worm, at(roundDay, '13:35'), 'sol');
  const vaccine = { schedule: 'core-vaccine', product: 'core-vaccine-live-1ml', lot: null, volume_ul: 1000 };
  give(3, { ...vaccine, route: 'under the skin' }, at('2026-02-27', '10:00'), 'vera');
  const chip = { code, packScan: null, round: null, site: 'between-shoulder-blades' };
  log.one('chip-implanted', 'animal:kit-4', chip as never, at(roundDay, '10:30'), undefined, { by: 'vera' });
  const found = { raw: code, code, class: 'iso' };
  const scan = { target: 'animal', occasion: 'after', found, passes: 1, reader: '', round: null };
  log.one('chip-scanned', 'animal:kit-4', scan as never, at(roundDay, '10:31'), undefined, { by: 'vera' });
  const other = '900000000000018';
  const seen = { ...scan, occasion: 'identify', found: { ...found, raw: other, code: other }, round: 'round-1' };
  log.one('chip-scanned', 'animal:kit-10', seen as never, at(roundDay, '13:36'));
  log.one('animal-left', 'animal:kit-7', { how: 'adopted', on: day(roundDay) }, at(roundDay, '13:20'), undefined, {
    by: 'sol',
  });
  give(8, { ...worm, round: 'round-1' }, at(roundDay, '13:38'), 'ines');
  const omitted = { schedule: 'roundworm', reason: 'refused-or-escaped', round: 'round-1' };
  log.one('treatment-not-given', 'animal:kit-9', omitted as never, at(roundDay, '13:39'));
  return viewOf(log);
}

describe('the sheet of a round says how each line stands (Verifies: SHEET-R41)', () => {
  const { world, view, stop } = inAllStates();
  const lines = view.stops.flatMap(({ animals }) => animals.flatMap((one) => one.lines.map((line) => ({ one, line }))));
  const drawUps = new Map(
    drawUpsFor(world, wantedOfRound(world, view.facts.id), now, view.facts.id).map((one) => [one.animal.id, one]),
  );
  const stands = lines.map(({ one, line }) => {
    const state = lineNow(world, view.facts, one, line, now, day(roundDay));
    return { one, line, state, text: lineStateText(state)?.text ?? null };
  });
  const textOf = (animal: string) => stands.find(({ one }) => one.animal.id === animal)?.text;

  it('with the words of a hold, when and by whom it was done, and what is not due any more', () => {
    expect(textOf('kit-1')).toMatch(/^Not now\. On hold: Fever\.\.? Until .*9 Mar/);
    expect(textOf('kit-2')).toMatch(/^given already: .*13:35, /);
    expect(textOf('kit-3')).toMatch(/^Not now\. .*Not before /);
    expect(textOf('kit-4')).toMatch(/^Not now\. /);
    expect(textOf('kit-10')).toContain('900000000000018 was read in it');
    expect(textOf('kit-7')).toMatch(/^left on .*1 Mar/);
    expect(textOf('kit-8')).toMatch(/^done: .*13:38, /);
    expect(textOf('kit-9')).toMatch(/^not done, .*13:39, /);
    expect(drawUps.get(animalId('kit-5'))?.dose.gates.map((gate) => gate.code)).toContain('weight-doubtful');
    expect([textOf('kit-5'), textOf('kit-6')]).toEqual([null, null]);
  });

  it('and never otherwise than the screen at the cage and the list of what is drawn up', () => {
    expect(stands).toHaveLength(10);
    for (const { one, line, state, text } of stands) {
      const id = one.animal.id;
      const step = nextStep(world, stop(id), now, day(roundDay));
      if (state.is === 'gone') continue;
      // A chip that was read is a stop of its own on the screen.
      const read = step.do === 'chip' && chipCourse(one.own, one.animal.scans).is === 'found';
      const waits = step.do === 'wait' || read;
      expect([id, waits]).toEqual([id, ['wait', 'given-elsewhere', 'chip-read'].includes(state.is)]);
      if (step.do === 'wait' && state.is === 'wait') expect(text).toContain(say(whyWait(step.item)));
      expect([id, step.do === 'finished']).toEqual([id, state.is === 'done' || state.is === 'not-done']);
      if (line.action === 'give') expect([id, drawUps.has(id)]).toEqual([id, state.is === 'to-do']);
    }
  });
});
