import type { Migration } from './migration.js';

/** The hash of the record before, so that each record proves itself also when its neighbour is lost. */
export const before: Migration = {
  number: 3,
  name: 'before',
  statements: (schema) => [
    schema.alterTable('records').addColumn('before_hash', 'text', (column) => column.notNull().defaultTo('')),
  ],
};
