import type { Migration } from './migration.js';

/** How far the server's clock lay behind its own log when a record came in; empty when it did not. */
export const serverClock: Migration = {
  number: 4,
  name: 'server-clock',
  statements: (schema) => [schema.alterTable('records').addColumn('server_behind_ms', 'integer')],
};
