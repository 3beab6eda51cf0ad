import { describe, expect, it } from 'vitest';
import { keepShown, shownBefore } from './shown-before.js';

const card = {
  product: 'wormer',
  amount: '0.15 mL',
  mark: '0.15 mL',
  syringe: '1 mL',
  strength: '100',
  lot: 'A',
};

function shelf() {
  const kept = new Map<string, string>();
  return () => ({
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => void kept.set(key, text),
    removeItem: (key: string) => void kept.delete(key),
  });
}

describe('what a card showed is kept over a reload. Verifies: ROUND-R89', () => {
  it('by animal and line, for the round that it was shown on', () => {
    const on = shelf();
    keepShown('round-1', 'basil wormer', card, on);
    expect(shownBefore('round-1', 'basil wormer', on)).toEqual(card);
    expect(shownBefore('round-1', 'fern wormer', on)).toBeNull();
    expect(shownBefore('round-2', 'basil wormer', on)).toBeNull();
  });

  it('another round does not throw away what the first one showed', () => {
    const on = shelf();
    keepShown('round-1', 'basil wormer', card, on);
    keepShown('round-2', 'fern wormer', card, on);
    expect(shownBefore('round-1', 'basil wormer', on)).toEqual(card);
  });

  it('what cannot be read is as nothing, and it is written anew', () => {
    const on = shelf();
    on().setItem('roundhand.shown-to-draw', '{');
    expect(shownBefore('round-1', 'basil wormer', on)).toBeNull();
    keepShown('round-1', 'basil wormer', card, on);
    expect(shownBefore('round-1', 'basil wormer', on)).toEqual(card);
  });
});
