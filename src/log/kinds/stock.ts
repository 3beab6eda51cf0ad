import { z } from 'zod';
import { CalendarDate, InstantText } from '../../core/calendar.js';
import { KitTypeId, LotId, ProductId, RoundId, SyringeId } from '../../core/ids.js';

/** A lot of a product, a box of point-of-care tests, or a box of chips came in. Subject `lot:ID`. */
export const LotReceived = z.object({
  of: z.discriminatedUnion('is', [
    z.object({ is: z.literal('product'), product: ProductId }),
    z.object({
      is: z.literal('kit'),
      kitType: KitTypeId,
      /** Lot printed on the conjugate bottle in the same box. */
      conjugateLot: z.string().min(1).max(60),
    }),
    z.object({
      is: z.literal('chips'),
      /** Every number in the box, as scanned. */
      codes: z.array(z.string().min(1).max(40)),
    }),
    /** A box of syringes of the formulary: only those in stock are offered for a draw. */
    z.object({ is: z.literal('syringe'), syringe: SyringeId }),
    z.object({
      is: z.literal('supply'),
      name: z.string().min(1).max(80),
      /** Syringes bought ready with anticoagulant, to draw blood for tests; each try of a draw takes one. */
      readyToDraw: z.boolean().optional(),
    }),
  ]),
  lotText: z.string().max(60),
  expires: CalendarDate.nullable(),
  /** Whole doses, tests, chips or pieces. Volume products count doses through `volume_ul`. */
  pieces: z.number().int().min(0).max(100_000),
  volume_ul: z.number().int().min(0).nullable().default(null),
});

/**
 * Syringes were made ready with anticoagulant here, by whoever the record is by. Subject `lot:ID`, a lot of its own. Until
 * when they keep is said by a person each time: nothing that we have read publishes it.
 */
export const SyringesPrepared = z.object({
  /** As written on the syringes or their tray. */
  lotText: z.string().min(1).max(60),
  count: z.number().int().min(1).max(500),
  /** What they were made ready with, as its label says, and the lot there; empty when it is not written down. */
  with: z.string().min(1).max(120),
  withLot: z.string().max(60).default(''),
  /** The box that the empty syringes came out of. */
  syringeLot: LotId.nullable().default(null),
  /** Null: nobody has said. */
  keepsUntil: InstantText.nullable(),
});

export const LotCounted = z.object({
  pieces: z.number().int().min(0),
  volume_ul: z.number().int().min(0).nullable().default(null),
  note: z.string().max(300).default(''),
});

export const LotWithdrawn = z.object({
  why: z.enum(['recalled', 'expired', 'used-up', 'stored-wrong', 'other']),
  note: z.string().max(300).default(''),
});

/** Tests of a box taken out of the cold to warm up. */
export const KitsOutOfCold = z.object({
  count: z.number().int().min(1).max(100),
  round: RoundId.nullable().default(null),
});
