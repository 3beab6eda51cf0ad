import { dayFromNumber } from '../calendar.js';
import { type Said, said } from '../said.js';
import type { Dates, Step } from './dates.js';
import type { TraceStep } from './due.js';
import { spanSaid, spanText } from './spans.js';

/** Every date a rule gave, in the order in which rules are asked; the one that decided is marked. */
export const traceOf = (dates: Dates): TraceStep[] =>
  dates.steps.map((step) => ({
    rule: step.rule,
    value: step.span === null ? '' : spanText(step.span),
    date: dayFromNumber(step.date),
    source: step.source,
    bound: step === dates.decided,
    words: stepSaid(step),
  }));

function stepSaid(step: Step): Said {
  if (step.span === null) return said(`due.step.${step.rule}`);
  const span = spanSaid(step.span);
  return step.from === null
    ? said(`due.step.${step.rule}`, { span })
    : said(`due.step.${step.rule}`, { span, since: sinceSaid(step.from.what) });
}

/** What an interval is counted from. */
export const sinceSaid = (what: NonNullable<Step['from']>['what']): Said => said(`due.since.${what}`);
