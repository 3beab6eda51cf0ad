import { z } from 'zod';
import { BlobId } from '../core/animal/photo.js';
import { CalendarDate } from '../core/calendar.js';
import { Head } from './wire.js';

/** What a look through all that is kept has found. */
export const Verified = z
  .object({
    whole: z
      .boolean()
      .describe(
        'The chain is unbroken, every record readable, every read table as rebuilt, the file in order, every picture there',
      ),
    head: Head,
    rowsOn: CalendarDate.nullable().describe('Day for which the read tables stand'),
    records: z.number().int(),
    chain: z.object({
      whole: z.boolean(),
      brokenAt: z.number().int().nullable(),
      fault: z.enum(['place-missing', 'changed']).nullable(),
    }),
    unreadable: z.array(z.object({ seq: z.number().int(), id: z.string(), why: z.string() })),
    pictures: z.object({
      pictures: z.number().int().describe('How many lie beside the log'),
      missing: z.array(BlobId).describe('Named by a record and not here: on the device that took them, or lost'),
      damaged: z.array(BlobId).describe('Here, and not what their names say'),
      unreferenced: z.array(BlobId).describe('Here, and named by no record; nothing is wrong with them'),
    }),
    engine: z.array(z.string()).describe('What the engine finds wrong with its own file and indexes, in its words'),
    tables: z.array(
      z.object({
        table: z.string(),
        rows: z.number().int(),
        missing: z.number().int().describe('Rows that should be there and are not'),
        extra: z.number().int().describe('Rows that should not be there'),
        different: z.number().int().describe('Rows that say something else'),
      }),
    ),
  })
  .meta({ id: 'Verified' });
export type Verified = z.infer<typeof Verified>;
