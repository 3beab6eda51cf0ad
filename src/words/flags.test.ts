import { expect, test } from 'vitest';
import { say } from './say.js';

test('what was taken back says whose word it was, who took it back and what it held', () => {
  const values = { animal: 'Una', what: 'pregnant', state: 'present', noted: 'Mara', person: 'Ines' };
  const on = { instant: '2026-03-10T09:00:00.000Z' };
  const sentence = say('flag.observation-taken-back.due', { ...values, on, due: { list: ['Core vaccine'] } });
  expect(sentence).toMatch(/^“pregnant” of Una, noted by Mara on .+, was taken back by Ines,/);
  expect(sentence).toContain('No longer held by it: Core vaccine.');
  expect(say('flag.observation-taken-back', { ...values, state: 'absent', on })).toMatch(/^That Una was without “/);
});

test('an order that is over says how many were missed', () => {
  const values = { name: 'Worms', animal: 'Una', count: 0, missed: 6 };
  expect(say('due.order.ended-missed', values)).toBe(
    'Worms has ended: none done, 6 missed. A veterinarian ends it or orders it again.',
  );
  expect(say('flag.order-missed', values)).toContain('6 doses missed and none given');
});
