import { z } from 'zod';
import { CalendarDate, InstantText } from '../../core/calendar.js';
import type { Key, Said, SayValue } from '../../core/said.js';

const value: z.ZodType<SayValue> = z.lazy(() =>
  z.union([
    z.string().max(500),
    z.number(),
    z.strictObject({ date: CalendarDate }),
    z.strictObject({ instant: InstantText }),
    z.strictObject({ grams: z.number() }),
    z.strictObject({ microlitres: z.number() }),
    z.strictObject({ micrograms: z.number() }),
    z.strictObject({ ageDays: z.number() }),
    z.strictObject({ list: z.array(value).max(100) }),
    SaidInRecord,
  ]),
);

/**
 * A sentence as the program knew it, not yet in any language: its key and its values. Another version may have known
 * another key; it is kept and shown as it stands.
 */
export const SaidInRecord: z.ZodType<Said> = z.lazy(() =>
  z
    .strictObject({
      say: z
        .string()
        .min(1)
        .max(120)
        .transform((key) => key as Key),
      with: z.record(z.string().max(60), value).optional(),
    })
    .transform((said): Said => (said.with === undefined ? { say: said.say } : { say: said.say, with: said.with })),
);
