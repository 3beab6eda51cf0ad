import { dayFromNumber } from '../../calendar.js';
import type { TraceStep } from '../due.js';
import type { Dates } from './dates.js';

/** Every date a rule gave, in the order in which rules are asked; the one that decided is marked. */
export const traceOf = ({ steps, decided }: Dates): TraceStep[] =>
  steps.map((step) => {
    const { rule, value, source, words } = step.kind;
    return { rule, value, date: dayFromNumber(step.date), source, bound: step === decided, words };
  });
