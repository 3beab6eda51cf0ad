import type { Span } from '../../calendar.js';
import { type Said, said } from '../../said.js';
import type { ProtocolDocument } from './document.js';
import { spanSaid } from './spans.js';

const ofIntervals = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended'] as const;
const ofAges = [...ofIntervals, 'maximum'] as const;
type Limits<Name extends string> = { readonly [limit in Name]?: { readonly span: Span } | undefined };

/**
 * Limits of age or of one interval that stand in the wrong order, as sentences: a dose that is late before it may be
 * given would be overdue on the day it falls due. Empty: they are in order.
 */
export function limitsOutOfOrder(document: ProtocolDocument): Said[] {
  return document.schedules.flatMap((schedule) =>
    schedule.series.flatMap((series) =>
      series.targets.flatMap((target, at) => {
        const dose = said('protocol-desk.dose-in', {
          schedule: schedule.name,
          dose: said('desk.doc.dose-of', { series: series.name, number: at + 1 }),
        });
        const inAge = outOfOrder(ofAges, target.age, dose, (limit) => said(`desk.doc.age.${limit}`));
        const inIntervals = target.intervals.flatMap((interval) =>
          outOfOrder(ofIntervals, interval, dose, (limit) => said(`desk.doc.interval.${limit}`)),
        );
        return [...inAge, ...inIntervals];
      }),
    ),
  );
}

function outOfOrder<Name extends string>(
  order: readonly Name[],
  limits: Limits<Name>,
  dose: Said,
  nameOf: (limit: Name) => Said,
): Said[] {
  const there = order.flatMap((limit) => {
    const span = limits[limit]?.span;
    return span === undefined ? [] : [{ limit, span }];
  });
  return there.flatMap((early, at) => {
    const late = there.slice(at + 1).find((one) => aboutDays(one.span) < aboutDays(early.span));
    if (late === undefined) return [];
    const [early_span, late_span] = [spanSaid(early.span), spanSaid(late.span)];
    const values = { dose, early: nameOf(early.limit), early_span, late: nameOf(late.limit), late_span };
    return [said('protocol-desk.out-of-order', values)];
  });
}

/** Days of a length of time, near enough to put two of them in order: a month is a twelfth of 365.25 days. */
export const aboutDays = ({ years = 0, months = 0, weeks = 0, days = 0 }: Span): number =>
  (years * 12 + months) * (365.25 / 12) + weeks * 7 + days;
