import type { Migration } from './migration.js';

/** How far the clock of a record's device was off when it last asked; both empty when that is not known. */
export const deviceClock: Migration = {
  number: 2,
  name: 'device-clock',
  statements: (schema) => [
    schema.alterTable('records').addColumn('clock_ahead_ms', 'integer'),
    schema.alterTable('records').addColumn('clock_measured_at', 'text'),
  ],
};
