import { expect, test } from 'vitest';
import { demoOn } from '../../../../test/support/demo.js';
import { addDays } from '../../../core/calendar.js';
import { dueRow } from '../../../log/rows/rows.js';
import { buildWorld, dueIn, inCare } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { type DueFilter, dueList, linesOf, orders, shows } from './due-list.js';

const demo = demoOn('2026-03-12');
const world = buildWorld(demo.records);
const whole: DueFilter = { section: 'all', litter: 'all', schedule: 'all', show: 'all', by: 'section' };
const rowsOf = (filter: Partial<DueFilter>) =>
  dueList(world, demo.today, { ...whole, ...filter }).flatMap((group) => group.rows);
const everything = inCare(world).flatMap((animal) => dueIn(world, animal, demo.today));

test('however it is ordered, the list has each item once', () => {
  expect(everything.length).toBeGreaterThan(100);
  for (const by of orders) {
    for (const show of shows) {
      const rows = rowsOf({ by, show });
      expect(new Set(rows.map((row) => row.item)).size).toBe(rows.length);
      expect(rows.length).toBe(rowsOf({ show }).length);
    }
    expect(rowsOf({ by })).toHaveLength(everything.length);
  }
});

test('today has what is due and overdue; a week has six more days of it', () => {
  const last = addDays(demo.today, 6);
  const today = rowsOf({ show: 'today' }).map((row) => row.item);
  const week = rowsOf({ show: 'week' }).map((row) => row.item);
  expect(today).toEqual(expect.arrayContaining(rowsOf({ show: 'overdue' }).map((row) => row.item)));
  expect(week).toEqual(expect.arrayContaining(today));
  const added = week.filter((item) => !today.includes(item));
  expect(added.length).toBeGreaterThan(0);
  for (const item of added) expect(item.due !== null && item.due <= last).toBe(true);
  const left = everything.filter((item) => item.status === 'not-yet' && !week.includes(item));
  expect(left.every((item) => item.due === null || item.due > last)).toBe(true);
});

test('a litter has only its own, and days follow each other', () => {
  const litter = inCare(world).find((animal) => animal.litter !== null)?.litter;
  expect(litter).toBeDefined();
  const rows = rowsOf({ litter: litter?.id ?? '' });
  expect(rows.length).toBeGreaterThan(0);
  expect(rows.every((row) => row.animal.litter?.id === litter?.id)).toBe(true);
  const days = dueList(world, demo.today, { ...whole, by: 'day' }).flatMap(({ heading }) =>
    heading.is === 'day' ? [heading.day] : [],
  );
  expect(days.length).toBeGreaterThan(5);
  expect(days).toEqual([...days].sort());
});

test('goes into a file as the server says it: the same lines, with what holds a treatment before what it waits for', () => {
  const rows = rowsOf({});
  const lines = linesOf(world.shelter, dueList(world, demo.today, whole));
  expect(lines).toHaveLength(rows.length);
  for (const [index, { animal, item }] of rows.entries()) {
    const row = dueRow(animal, item);
    const line = lines[index];
    expect(line).toMatchObject({ status: row.status, due: row.due, holdCode: row.hold_code, protocol: row.protocol });
    expect(line?.reason).toBe(say(JSON.parse(row.because)));
  }
  expect(lines.some(({ holdCode }) => holdCode !== null)).toBe(true);
});
