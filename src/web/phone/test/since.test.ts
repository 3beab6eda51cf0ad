import { expect, it } from 'vitest';
import { sinceWords } from './since.js';

it('a kit that has been out since the day before says the day, too', () => {
  expect(sinceWords('2026-03-01T09:05:00.000Z', '2026-03-01' as never, 'UTC')).toBe('09:05');
  expect(sinceWords('2026-02-28T22:05:00.000Z', '2026-03-01' as never, 'UTC')).toMatch(/28.*22:05/);
});
