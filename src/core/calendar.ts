import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';

/**
 * A calendar day without time and without zone, as ISO text `YYYY-MM-DD`. Birth, due, expiry and intake days are
 * of this kind from the field to the export, so no zone can move them.
 */
export const CalendarDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'a day as YYYY-MM-DD')
  .refine((text) => isRealDay(text), 'not a day of the calendar')
  .brand<'CalendarDate'>();
export type CalendarDate = z.infer<typeof CalendarDate>;

/** An instant as ISO text in UTC, `2026-03-08T14:07:00.000Z`. */
export const InstantText = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?Z$/, 'an instant in UTC')
  .refine((text) => isRealInstant(text), 'not an instant');
export type InstantText = z.infer<typeof InstantText>;

export const ZoneName = z.string().refine((zone) => isKnownZone(zone), 'not a time zone of the IANA list');
export type ZoneName = z.infer<typeof ZoneName>;

/** A span in the unit of its source; months and weeks are never turned into days. */
export const Span = z.object({
  years: z.number().int().optional(),
  months: z.number().int().optional(),
  weeks: z.number().int().optional(),
  days: z.number().int().optional(),
});
export type Span = z.infer<typeof Span>;
