import { describe, expect, test } from 'vitest';
import { withheldBy } from './withheld.js';

const all = { vibrate: () => true, storage: { persist: async () => true }, serviceWorker: {} };

describe('what a browser withholds from a round', () => {
  test('is nothing where everything is offered and the data is promised to be kept', () => {
    expect(withheldBy(all, true)).toEqual([]);
  });
  test('is not yet known of the data before the browser has answered', () => {
    expect(withheldBy(all, null)).toEqual([]);
  });
  test.each([
    ['shake', { ...all, vibrate: undefined }, true],
    ['kept', { ...all, storage: {} }, null],
    ['kept', { vibrate: all.vibrate, serviceWorker: {} }, null],
    ['kept', all, false],
    ['opens', { ...all, serviceWorker: undefined }, true],
  ])('is %s', (what, browser, kept: boolean | null) => {
    expect(withheldBy(browser, kept)).toEqual([what]);
  });
});
