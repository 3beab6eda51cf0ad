import { afterEach, vi } from 'vitest';
import { PersonId } from '../../src/core/ids.js';
import { keepPin } from '../../src/device/store/pins.js';
import { store } from '../../src/web/store/here.js';

/** A PIN by which somebody has signed in on this device before; from now on, to the end of the test, no server answers. */
export async function hasPinHere(person: string, pin: string): Promise<void> {
  await keepPin(store.db, PersonId.parse(person), pin, 'salt of this test');
  vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no network')));
}

afterEach(() => {
  vi.unstubAllGlobals();
});
