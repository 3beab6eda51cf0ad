import { amountOf } from '../../core/dosing/amount.js';
import type { Gate, GateCode } from '../../core/dosing/gate.js';
import { roleGates } from '../../core/dosing/label-gates.js';
import type { PersonId, RoundId, ScheduleId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import type { BodyInput } from '../kinds/index.js';
import type { DrawUp } from '../prepare/draw-ups.js';

/** How the sheet tells the amount: the one that was printed, another, or none. */
export type Given = 'as-printed' | 'other' | 'no-amount';

export interface DoseOnPaper {
  readonly schedule: ScheduleId;
  readonly round: RoundId;
  readonly given: Given;
  /** The line as it stands on the paper, and as it is now that other lines are on record. */
  readonly printed: DrawUp;
  readonly current: DrawUp;
  /** As written, where another amount is. */
  readonly volume_ul: number | null;
  readonly pieces: string;
  /** Null until somebody has said who gave it. */
  readonly by: PersonId | null;
  readonly role: Role | undefined;
}

/** What a dose given just as printed can still run into: other doses of the same sheet. */
const sinceThen: readonly GateCode[] = ['ingredient-too-soon', 'too-soon-in-course', 'too-often'];

/**
 * Stops that stood when it was given by the sheet, each once: those that were printed, those that stand now, and that it
 * is not for everybody to give.
 */
export function stopsOnPaper({ given, printed, current, role }: Omit<DoseOnPaper, 'by'>): Gate[] {
  const stops = [...printed.dose.gates, ...current.dose.gates].filter(({ severity }) => severity === 'stop');
  const stood = [
    ...(given === 'as-printed' ? stops.filter(({ code }) => sinceThen.includes(code)) : stops),
    ...roleGates(printed.product, role),
  ];
  return stood.filter(({ code }, i) => stood.findIndex((other) => other.code === code) === i);
}

/**
 * A dose as the sheet tells it, all but lot, order and words. Where on the animal it went is never written there; which
 * syringe was in the hand is known only where it was drawn as printed.
 */
export function doseOnPaper(what: DoseOnPaper): BodyInput<'treatment-given'> {
  const { given, printed, current, by } = what;
  const { dose, product, animal } = given === 'as-printed' ? printed : current;
  return {
    schedule: what.schedule,
    product: product.id,
    lot: null,
    ...amountWritten(what),
    syringe: given === 'as-printed' ? (dose.drawn?.syringe ?? null) : null,
    planned_ul: dose.total_ul ?? dose.exact_ul,
    weight: dose.grams === null ? null : (animal.weighings.at(-1)?.record ?? null),
    grams: dose.grams,
    route: product.route,
    site: '',
    passed:
      by === null ? [] : stopsOnPaper(what).map(({ code }) => ({ gate: code, how: 'no-word-on-paper' as const, by })),
    round: what.round,
  };
}

function amountWritten({ given, printed, volume_ul, pieces }: DoseOnPaper): {
  volume_ul: number | null;
  pieces: string;
} {
  if (given === 'no-amount') return { volume_ul: null, pieces: '' };
  if (given === 'other') return { volume_ul, pieces: volume_ul === null ? pieces.trim() : '' };
  const { dose, product } = printed;
  const printed_ul = dose.total_ul ?? dose.exact_ul;
  if (printed_ul !== null) return { volume_ul: printed_ul, pieces: '' };
  const amount = amountOf(product, dose.grams);
  return { volume_ul: null, pieces: amount.ok ? amount.amount.pieces : '' };
}
