import { makeSync } from '../../device/sync/sync.js';
import { now } from '../clock.js';
import { store } from './here.js';

/** The exchange of this device with the server. */
export const sync = makeSync(store, now, undefined, __ROUNDHAND_VERSION__);
