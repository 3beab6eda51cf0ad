import 'fake-indexeddb/auto';
import { expect, test } from 'vitest';
import { demoOn } from '../../../test/support/demo.js';
import { RoundId } from '../../core/ids.js';
import { aheadOfAnimal } from '../../log/ahead-of-animal.js';
import { aheadOfDesk } from '../../log/ahead-of-desk.js';
import { aheadOfRound } from '../../log/ahead-of-round.js';
import { flagsIn } from '../../log/flags/flags.js';
import { lotUse } from '../../log/stock/lots.js';
import { roundView } from '../../log/views/round/round.js';
import { applyToWorld, buildWorld, dueIn, emptyWorld, type World } from '../../log/views/world.js';
import { openDb } from '../db.js';
import { readWorld } from './read-world.js';
import { inSlices, type Rest } from './slices.js';

const demo = demoOn('2026-05-14');

/** A rest after so many parts, that says how often it was taken. */
function after(parts: number, meanwhile = (): void => undefined): Rest & { readonly taken: () => number } {
  let done = 0;
  let taken = 0;
  return {
    isDue: () => {
      done += 1;
      return done % parts === 0;
    },
    take: async () => {
      taken += 1;
      meanwhile();
    },
    taken: () => taken,
  };
}

const text = (value: unknown): string =>
  JSON.stringify(value, (_, one) => (one instanceof Map ? [...one] : one instanceof Set ? [...one] : one));

/** All that a world says. */
const told = ({ shelter, animals, bySubject, unknown, unread }: World): string =>
  text({ shelter, animals, bySubject, unknown, unread });

const whole = told(buildWorld(demo.records));

test.each([1, 2, 3, 7, 50, 100_000])('a world folded in slices of %i parts is the one folded at once', async (size) => {
  const rest = after(size);
  const world = await inSlices(buildWorld.inParts(demo.records), rest);
  expect(told(world)).toBe(whole);
  expect(rest.taken() > 20).toBe(size < 5);
});

test('nor does it differ where the same records are folded and asked about during the rests', async () => {
  const half = demo.records.slice(0, demo.records.length / 2);
  const others = new Set<string>();
  const rest = after(40, () => others.add(told(applyToWorld(emptyWorld, half))));
  expect(told(await inSlices(buildWorld.inParts(demo.records), rest))).toBe(whole);
  expect(others.size).toBe(1);
});

test('what is read from the database page by page is all that lies there, in the same order', async () => {
  const db = openDb('read-in-slices');
  // Enough for a few pages.
  const byId = demo.records.slice(0, 350).sort((a, b) => (a.id < b.id ? -1 : 1));
  await db.records.bulkPut(byId);
  const rest = after(10);
  const { world, held } = await readWorld(db, new Set(), rest);
  expect(held).toBe(byId.length);
  expect(told(world)).toBe(told(buildWorld(byId)));
  expect(rest.taken()).toBeGreaterThan(byId.length / 20);
  const [one = ''] = [...buildWorld(byId).bySubject.keys()].filter((subject) => subject.startsWith('animal:'));
  const without = await readWorld(db, new Set([one]), rest);
  expect(without.held).toBe(byId.length);
  expect(without.world.bySubject.has(one)).toBe(false);
  db.close();
});

test('what is asked ahead is what is answered without it', async () => {
  const [ahead, plain] = [buildWorld(demo.records), buildWorld(demo.records)];
  const [round = RoundId.parse('none')] = [...plain.shelter.rounds.keys()] as RoundId[];
  for (const id of ahead.animals.keys()) await inSlices(aheadOfAnimal(ahead, round, id, demo.today), after(3));
  await inSlices(aheadOfDesk(ahead, demo.today), after(1));
  await inSlices(aheadOfRound(ahead, round, demo.today), after(1));
  const answers = (world: World): string =>
    text([
      flagsIn(world, demo.today),
      [...world.animals.values()].map((animal) => dueIn(world, animal, demo.today)),
      roundView(world, round),
      lotUse(world),
    ]);
  expect(answers(ahead)).toBe(answers(plain));
  await inSlices(aheadOfRound(ahead, RoundId.parse('not-known'), demo.today), after(1));
});
