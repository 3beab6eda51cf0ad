import { expect } from 'vitest';
import { chanceFrom } from '../../src/core/route-plan/model/chance.js';
import { draft, type LogRecord } from '../../src/log/record.js';
import type { LogStore } from '../../src/log/store.js';
import { heldIn } from '../../src/store/held.js';
import { busyLog } from '../support/busy-log.js';
import { at, day, kitten } from '../support/log.js';
import { weighed } from '../support/shelter-log.js';

const noon = at('2026-03-02', '12:00');

/** A store, empty so far, gives the same as a walk over the whole log, whatever came, left and came back. */
export async function givesWhatIsHeld(store: LogStore): Promise<void> {
  const log = busyLog();
  const chance = chanceFrom(20260302);
  const back: LogRecord[] = [];
  for (let turn = 0; turn < 40; turn += 1) {
    const kit = 1 + Math.floor(chance.next() * 8);
    const animal = `animal:kit-${kit}`;
    const what = chance.next();
    if (what < 0.4) log.add([weighed(kit, 500 + turn, noon)]);
    else if (what < 0.6) {
      log.add([draft('animal-taken-in', animal, kitten(`Kit ${kit}`, '2026-01-20'), noon)], 'sol');
    } else if (what < 0.8 || back.length === 0) {
      const gone = draft('animal-left', animal, { how: 'adopted', on: day('2026-03-02') }, noon);
      back.push(...log.add([gone], 'sol'));
    } else {
      const gone = back.pop();
      if (gone !== undefined) {
        log.add([draft('record-withdrawn', gone.subject, { reason: 'came back' }, noon, gone.id)], 'sol');
      }
    }
  }
  await store.append(log.records, noon);
  const all = await store.read();
  const gone = new Set((await store.rows('animals')).filter((row) => row.left_on !== null).map(({ animal }) => animal));
  expect(gone.size).toBeGreaterThan(1);
  expect(gone.size).toBeLessThan((await store.rows('animals')).length);
  for (let after = 0; after <= all.length; after += 3) {
    for (const since of [0, after, after + 7, all.length - 5, all.length + 2]) {
      for (const limit of [1, 4, 1000]) {
        const ask = { after, since, limit };
        const held = await store.held(ask);
        const should = heldIn(all, (animal) => gone.has(animal), ask);
        expect(held, JSON.stringify(ask)).toEqual({ ...should, left: expect.arrayContaining([...should.left]) });
        expect(held.left).toHaveLength(should.left.length);
      }
    }
  }
}
