import type { Migration } from './migration.js';

/** The log itself, and the one row that says how far it and the read tables have come. */
export const log: Migration = {
  number: 1,
  name: 'log',
  statements: (schema) => [
    schema
      .createTable('records')
      .addColumn('seq', 'integer', (column) => column.primaryKey())
      .addColumn('id', 'text', (column) => column.notNull().unique())
      .addColumn('shelter', 'text', (column) => column.notNull())
      .addColumn('subject', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('v', 'integer', (column) => column.notNull())
      // Canonical JSON as text, byte for byte what was hashed; not a JSON type, which would rewrite it.
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('happened_at', 'text', (column) => column.notNull())
      .addColumn('zone', 'text', (column) => column.notNull())
      .addColumn('recorded_at', 'text', (column) => column.notNull())
      .addColumn('by_person', 'text', (column) => column.notNull())
      .addColumn('with_person', 'text')
      .addColumn('written_by', 'text')
      .addColumn('device', 'text', (column) => column.notNull())
      .addColumn('device_seq', 'integer', (column) => column.notNull())
      // No foreign key: a correction may come in before what it corrects.
      .addColumn('corrects', 'text')
      .addColumn('received_at', 'text', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull()),
    schema.createIndex('records_subject').on('records').columns(['subject', 'seq']),
    schema
      .createTable('log_head')
      .addColumn('one', 'integer', (column) => column.primaryKey())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull())
      .addColumn('received_at', 'text')
      .addColumn('turn', 'integer', (column) => column.notNull())
      .addColumn('rows_on', 'text')
      .addColumn('rows_shape', 'text', (column) => column.notNull()),
  ],
};
