import { expect, it } from 'vitest';
import { whySign } from './why-sign.js';

it('says why the sign hangs, and that nobody asked for it where nobody did (Verifies: LOG-R153)', () => {
  const raisedAt = '2026-03-02T10:00:00.000Z';
  const reactive = { code: 'reactive', raisedAt } as const;
  const lamp = { code: 'lamp-glow', raisedAt } as const;
  expect(whySign([lamp, reactive], []).say).toBe('desk.sign.since');
  expect(whySign([lamp], []).say).toBe('desk.sign.since-lamp');
  expect(whySign([], ['Ringworm seen']).say).toBe('desk.sign.seen');
  expect(whySign([], []).say).toBe('desk.sign.nobody-asked');
});
