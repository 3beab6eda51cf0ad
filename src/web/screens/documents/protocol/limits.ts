import type { Span } from '../../../../core/calendar.js';
import type { ProtocolDocument } from '../../../../core/protocol/document.js';
import { spanSaid } from '../../../../core/protocol/spans.js';
import { say } from '../../../../words/say.js';
import { doseWords } from '../protocol-lines.js';
import { aboutDays } from './span-text.js';

const order = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended', 'maximum'] as const;
type Limits = { readonly [limit in (typeof order)[number]]?: { readonly span: Span } | undefined };

/**
 * Limits of age or of one interval that stand in the wrong order, as sentences: a dose that is late before it may be
 * given would be overdue on the day it falls due.
 */
export function limitsOutOfOrder(document: ProtocolDocument): string[] {
  return document.schedules.flatMap((schedule) =>
    schedule.series.flatMap((series) =>
      series.targets.flatMap((target, at) => {
        const dose = `${schedule.name}, ${doseWords(series, at)}`;
        return [
          ...outOfOrder(target.age, 'desk.doc.age', dose),
          ...target.intervals.flatMap((interval) => outOfOrder(interval, 'desk.doc.interval', dose)),
        ];
      }),
    ),
  );
}

function outOfOrder(limits: Limits, words: 'desk.doc.age' | 'desk.doc.interval', dose: string): string[] {
  const there = order.flatMap((limit) => {
    const span = limits[limit]?.span;
    return span === undefined ? [] : [{ limit, span }];
  });
  return there.flatMap((early, at) => {
    const late = there.slice(at + 1).find((one) => aboutDays(one.span) < aboutDays(early.span));
    const name = (limit: string): string => say(`${words}.${limit as (typeof order)[1]}`);
    return late === undefined
      ? []
      : [
          say('protocol-desk.out-of-order', {
            dose,
            early: name(early.limit),
            early_span: spanSaid(early.span),
            late: name(late.limit),
            late_span: spanSaid(late.span),
          }),
        ];
  });
}
