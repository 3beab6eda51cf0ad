import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { itemText } from '../told/item-text.js';
import { english } from '../words/english.js';
import { saidIn } from './words-with-parts.js';

it('says what to wear and what to do on leaving, and its words come with it', () => {
  expect(itemText('leave.gloves')).toBe('Gloves off, into the bin');
  expect(itemText('Own slippers')).toBe('Own slippers');
  const said = saidIn(readFileSync(new URL('../told/item-text.ts', import.meta.url), 'utf8'), english.messages);
  expect(Object.keys(said)).toEqual(expect.arrayContaining(['wear.gloves', 'leave.gloves', 'leave.cart']));
});
