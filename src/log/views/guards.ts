import type { LogRecord } from '../record.js';
import { isMedical } from './documents/ground-on.js';
import type { Ground } from './ground.js';

export type Noted = LogRecord<'observation-noted'>;

/** What the medical team saw and that stands after one more observation of the same thing; undefined for nothing. */
export function guardAfter(ground: Ground, next: Noted, guard: Noted | undefined): Noted | undefined {
  if (next.body.state === 'present') return isMedical(ground, next) ? next : guard;
  const { answer, on } = next.body;
  const isOver = guard?.body.until != null && guard.body.until >= guard.body.on && guard.body.until < on;
  return isOver || answer !== null || isMedical(ground, next) || endsOwn(next, guard) ? undefined : guard;
}

/** Whoever noted it for the medical team says by their own hand that it is over, whatever their role is by now. */
export const endsOwn = ({ by, writtenBy, body }: Noted, guard: Noted | undefined): boolean =>
  guard !== undefined && body.state === 'absent' && by === guard.by && (writtenBy ?? by) === by;
