import { z } from 'zod';
import { LotId, RecordId, RoundId } from '../../core/ids.js';

const found = z
  .object({
    /** Exactly what the reader sent. */
    raw: z.string().max(200),
    /** Normalised number, text. */
    code: z.string().min(1).max(40),
    class: z.string().max(40),
  })
  .nullable();

export const ChipScanned = z.object({
  target: z.enum(['animal', 'pack']),
  occasion: z.enum(['intake', 'identify', 'before', 'pack', 'after', 'recheck', 'exit']),
  /** Null: nothing found, which is a result. */
  found,
  passes: z.number().int().min(1).max(20).default(1),
  scanner: z.string().max(60).default(''),
  typed: z.boolean().default(false),
  round: RoundId.nullable().default(null),
});

export const ChipImplanted = z.object({
  code: z.string().min(1).max(40),
  site: z.string().max(80),
  packScan: RecordId.nullable(),
  lot: LotId.nullable().default(null),
  round: RoundId.nullable().default(null),
});
