import { z } from 'zod';
import { addSpanTo, Span } from '../../calendar.js';
import { Standing } from '../../dosing/formulary.js';
import { SourceId } from '../../ids.js';

const name = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case words joined by hyphens')
  .max(60);
const hours = z.number().int().min(1).max(8784);
const grounds = {
  id: name,
  severity: z.enum(['stop', 'attention']),
  source: SourceId,
  standing: Standing,
  note: z.string().max(1000).default(''),
};

/** What of the last weighing is told to people: no weight, share or time of it lives in code. */
export const WatchRule = z.discriminatedUnion('is', [
  /** So much under the highest weight of the hours before, in percent of that; 0: any loss at all. */
  z.object({ is: z.literal('loss'), percent: z.number().min(0).max(99), within_h: hours, ...grounds }),
  /** Not above the last weighing that is at least and at most so many hours old. */
  z.object({ is: z.literal('no-gain'), least_h: hours, most_h: hours, ...grounds }),
  /** Gains less than so many grams in 24 hours since the last weighing that is at least so many hours old. */
  z.object({ is: z.literal('slow-gain'), perDay_g: z.number().positive(), least_h: hours, ...grounds }),
  /** Weighed on its first day, and not twice that from so many days of age on. */
  z.object({ is: z.literal('not-doubled'), fromDay: z.number().int().min(1), ...grounds }),
]);
export type WatchRule = z.infer<typeof WatchRule>;

/** How weights are watched under an age; from the last age on, and where nobody knows the age, by the one without an end. */
export const WeightBand = z.object({
  id: name,
  /** What people call that age, in the language of the document. */
  words: z.string().min(1).max(80),
  /** Under this age, by the latest day on which the animal may have been born; null for the rest of life. */
  under: Span.nullable(),
  rules: z.array(WatchRule).min(1),
});
export type WeightBand = z.infer<typeof WeightBand>;

/** In the order of age, and the last one alone without an end. */
export const WeightWatch = z.array(WeightBand).superRefine((bands, context) => {
  const ends = bands.map(({ under }) => (under === null ? Number.POSITIVE_INFINITY : addSpanTo(0, under)));
  bands.forEach((band, at) => {
    if (at > 0 && (ends[at] ?? 0) <= (ends[at - 1] ?? 0)) {
      context.addIssue({ code: 'custom', path: [at, 'under'], message: `${band.id} is not older than the one before` });
    }
  });
  if (bands.length > 0 && bands.at(-1)?.under !== null) {
    context.addIssue({ code: 'custom', path: [bands.length - 1, 'under'], message: 'the last one has no end' });
  }
});
