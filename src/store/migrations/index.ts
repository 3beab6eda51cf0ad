import { log } from './001-log.js';
import { deviceClock } from './002-device-clock.js';
import { before } from './003-before.js';
import { serverClock } from './004-server-clock.js';
import type { Migration } from './migration.js';

/** All steps in order. */
export const migrations: readonly Migration[] = [log, deviceClock, before, serverClock];
