import { expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { instantOf, isTime, readPaperTime } from './paper-time.js';

const on = day('2026-03-12');
const read = (text: string, zone = 'UTC', day_ = on) => instantOf(readPaperTime(day_, text, zone));

it('reads a time of day as hands write it, in the zone of the shelter, and guesses nothing', () => {
  for (const text of ['9:05', '09:05', '09.05', '0905', ' 9:05 '])
    expect([text, read(text)]).toEqual([text, '2026-03-12T09:05:00.000Z']);
  for (const text of ['', '9', '24:00', '9:5', '12:60', '9:05 pm', '1:2:3']) {
    expect([text, isTime(text), read(text)]).toEqual([text, false, null]);
  }
  expect(read('13:05', 'America/St_Johns')).toBe('2026-03-12T15:35:00.000Z');
  expect(read('13:05', 'UTC', null as never)).toBeNull();
});
