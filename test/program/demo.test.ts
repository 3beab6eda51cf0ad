import { describe, expect, it } from 'vitest';
import { dayOfInstant } from '../../src/core/calendar.js';
import { worthOf } from '../../src/log/views/due/due.js';
import { demoOn } from '../support/demo.js';
import { storyOf } from '../support/demo-story.js';

/** Day, zone, time of looking: around clock changes, leap days, the turn of a year, just after midnight. */
const looks = [
  ['2026-03-09', 'America/Chicago', '07:30', 'the day after clocks went forward'],
  ['2026-11-01', 'America/St_Johns', '23:59', 'the day clocks go back, late'],
  ['2026-09-27', 'Pacific/Auckland', '00:01', 'the day clocks go forward, just after midnight'],
  ['2024-02-29', 'UTC', '12:00', 'a leap day'],
  ['2024-04-11', 'Europe/Berlin', '18:00', 'six weeks that begin on a leap day and cross a clock change'],
  ['2027-01-03', 'Australia/Lord_Howe', '09:00', 'the turn of a year, half an hour of summer time'],
  ['2026-06-15', 'Pacific/Kiritimati', '06:00', 'fourteen hours before UTC'],
] as const;

describe('the invented shelter on any day', () => {
  it.each(looks)('%s in %s at %s: %s', (day, zone, time) => {
    const demo = demoOn(day, zone, time);
    const story = storyOf(demo);
    expect(story.missing()).toEqual([]);
    for (const { happenedAt, recordedAt } of demo.records) {
      expect(happenedAt <= recordedAt && recordedAt <= demo.now).toBe(true);
      expect(dayOfInstant(recordedAt, zone) < demo.today).toBe(true);
    }
    const odd = [...story.world.animals.values()].flatMap((animal) =>
      worthOf(animal, story.world.shelter, demo.today)
        .filter((one) => one.status !== 'valid')
        .map((one) => `${animal.name} ${one.reason}`),
    );
    expect(odd.sort()).toEqual([
      'Hazel test-read-late',
      'Hyssop test-invalid',
      'Kestrel same-day',
      'Lovage expired-lot',
      'Mallow test-abandoned',
      'Rue not-confirmed',
    ]);
  });

  it.each([2, 3, 2026, -7])('is whole with the seed %i', (seed) => {
    expect(storyOf(demoOn('2026-05-20', 'America/Chicago', '08:00', seed)).missing()).toEqual([]);
  });

  it('refuses a moment that is not on the day', () => {
    expect(() => demoOn('2026-05-20', 'America/Chicago', '24:30')).toThrow();
  });
});
