import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf } from '../../../test/support/round-log.js';
import { awaitingSecond, lastBelieved, lookAtWeight, type Proof } from './weighing.js';

function weighedTwice(first: { grams: number; doubtful: boolean; time?: string } | null) {
  const log = roundLog({ 'kit-1': [] });
  const weigh = (grams: number, on: string, time: string, doubtful = false) =>
    log.one('animal-weighed', 'animal:kit-1', { grams, entered: `${grams} g`, doubtful }, at(on, time));
  weigh(620, '2026-03-01', '10:30');
  if (first !== null) weigh(first.grams, roundDay, first.time ?? '13:35', first.doubtful);
  return viewOf(log).stop('kit-1').animal;
}
const look = (animal: ReturnType<typeof weighedTwice>, grams: number, time = '13:40') =>
  lookAtWeight(animal, grams, at(roundDay, time), day(roundDay));

describe('a second weighing (Verifies: ROUND-R6)', () => {
  it.each([
    ['a weight that fits', 640, false],
    ['a tenfold slip', 6500, true],
    ['pounds for kilograms', 1367, true],
    ['a key pressed twice', 65, true],
  ])('%s', (_, grams, doubtful) => {
    expect(look(weighedTwice(null), grams).doubtful).toBe(doubtful);
  });

  it('believes a jump that two weighings agree on', () => {
    const animal = weighedTwice({ grams: 880, doubtful: true });
    expect(awaitingSecond(animal, at(roundDay, '13:40'))?.grams).toBe(880);
    expect(look(animal, 924)).toEqual({ doubtful: false, confirms: true });
    expect(look(animal, 925).doubtful).toBe(true);
  });

  it('does not believe two that no cat of that age weighs, on another scale neither, unless the medical team weighs (LOG-R171)', () => {
    const animal = weighedTwice({ grams: 6500, doubtful: true });
    expect(look(animal, 6500)).toMatchObject({ doubtful: true, confirms: false, beyond: 'age' });
    const [when, on] = [at(roundDay, '13:40'), day(roundDay)];
    const by = (proof: Proof) => lookAtWeight(animal, 6500, when, on, null, proof);
    expect(by('other-scale')).toMatchObject({ doubtful: true, confirms: false, beyond: 'age' });
    expect(by('medical')).toEqual({ doubtful: false, confirms: true });
  });

  it('does not believe two on one scale that are far from the last weight, and does on another (LOG-R171)', () => {
    const [when, on] = [at(roundDay, '13:40'), day(roundDay)];
    for (const grams of [1100, 400]) {
      const animal = weighedTwice({ grams, doubtful: true });
      expect(look(animal, grams), `${grams}`).toMatchObject({ doubtful: true, confirms: false, beyond: 'jump' });
      for (const proof of ['other-scale', 'medical'] as const) {
        const found = lookAtWeight(animal, grams, when, on, null, proof);
        expect(found, `${grams} ${proof}`).toEqual({ doubtful: false, confirms: true });
      }
    }
  });

  it('believes a second weight that fits the last believed one, and not the first', () => {
    const animal = weighedTwice({ grams: 6500, doubtful: true });
    expect(lastBelieved(animal)?.grams).toBe(620);
    expect(look(animal, 650)).toEqual({ doubtful: false, confirms: false });
  });

  it('settles a doubt also against a weighing that lies ahead of this clock (Verifies: LOG-R52)', () => {
    const log = roundLog({ 'kit-1': [] });
    const weigh = (grams: number, time: string, doubtful: boolean, on = roundDay) =>
      log.one('animal-weighed', 'animal:kit-1', { grams, entered: `${grams} g`, doubtful }, at(on, time));
    weigh(6200, '15:35', false, '2026-06-30');
    weigh(640, '13:35', true);
    const { animal } = viewOf(log).stop('kit-1');
    expect(animal.weighings.at(-1)?.grams).toBe(6200);
    expect(look(animal, 645)).toEqual({ doubtful: false, confirms: true });
    expect(look(animal, 900).doubtful).toBe(true);
  });

  it('does not wait for ever', () => {
    const animal = weighedTwice({ grams: 6500, doubtful: true, time: '11:00' });
    expect(awaitingSecond(animal, at(roundDay, '13:40'))).toBeNull();
  });
});
