import { describe, expect, test } from 'vitest';
import { withoutHttps } from './plain.js';

describe('what a page that came without https lacks (Verifies: LAN-R5)', () => {
  test.each([
    [{ serviceWorker: {}, wakeLock: {}, mediaDevices: {} }, []],
    [{ wakeLock: {}, mediaDevices: {} }, ['opens']],
    [{ serviceWorker: {}, mediaDevices: {} }, ['lit']],
    [{ serviceWorker: {}, wakeLock: {} }, ['camera']],
    [{}, ['opens', 'lit', 'camera']],
  ])('is told by what the browser offers: %o', (browser, missing) => {
    expect(withoutHttps(browser)).toEqual(missing);
  });
});
