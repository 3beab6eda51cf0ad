import { expect, test } from 'vitest';
import { demoOn } from '../../../../../test/support/demo.js';
import { addDays } from '../../../../core/calendar.js';
import { dueOf } from '../../../../log/views/due/due.js';
import { buildWorld, inCare } from '../../../../log/views/world.js';
import { compareDue, type Pretence, pretendedAnimal, pretends } from './pretence.js';

const demo = demoOn('2026-03-12');
const world = buildWorld(demo.records);
const nothing: Pretence = { day: demo.today, grams: null, dose: null, seen: null };
const compared = (index: number, pretence: Pretence) => {
  const animal = dueAnimals[index];
  if (animal === undefined) throw new Error('the demo has no such animal');
  const then = dueOf(pretendedAnimal(animal, pretence), world.shelter, pretence.day);
  return { animal, rows: compareDue(dueOf(animal, world.shelter, demo.today), then) };
};
const dueAnimals = inCare(world).filter((animal) =>
  dueOf(animal, world.shelter, demo.today).some(
    (item) =>
      item.action === 'give' && item.products.length > 0 && (item.status === 'due' || item.status === 'overdue'),
  ),
);

test('nothing pretended changes nothing, for any animal', () => {
  expect(pretends(nothing, demo.today)).toBe(false);
  expect(dueAnimals.length).toBeGreaterThan(3);
  for (const [index] of dueAnimals.entries()) {
    expect(compared(index, nothing).rows.filter((row) => row.change !== 'same')).toEqual([]);
  }
});

test('a dose given today is no longer due, and the animal itself is as it was', () => {
  const animal = dueAnimals[0];
  const item =
    animal &&
    dueOf(animal, world.shelter, demo.today).find(
      (one) => one.action === 'give' && one.products.length > 0 && (one.status === 'due' || one.status === 'overdue'),
    );
  const product = item?.products[0];
  if (animal === undefined || item === undefined || product === undefined) throw new Error('nothing is due');
  const had = animal.history.length;
  const { rows } = compared(0, { ...nothing, dose: { schedule: item.schedule, product, on: demo.today } });
  expect(rows.find((row) => row.schedule === item.schedule)?.change).toBe('no-longer-due');
  expect(animal.history).toHaveLength(had);
});

test('a later day brings something that is not due today', () => {
  const later = { ...nothing, day: addDays(demo.today, 60) };
  const rows = dueAnimals.flatMap((_, index) => compared(index, later).rows);
  expect(rows.some((row) => row.change === 'newly-due')).toBe(true);
});

test('what a rule holds for puts its schedule on hold once it is seen', () => {
  const rules = (world.shelter.protocol?.schedules ?? []).flatMap((schedule) =>
    schedule.holds.flatMap((rule) =>
      rule.present === 'hold' && rule.when.is === 'observation' ? [{ schedule, code: rule.when.code }] : [],
    ),
  );
  const held = rules.filter(({ schedule, code }) =>
    dueAnimals.some((_, index) =>
      compared(index, { ...nothing, seen: { code, state: 'present' } }).rows.some(
        (row) => row.schedule === schedule.id && row.would?.status === 'on-hold' && row.now?.status !== 'on-hold',
      ),
    ),
  );
  expect(rules.length).toBeGreaterThan(0);
  expect(held.length).toBeGreaterThan(0);
});
