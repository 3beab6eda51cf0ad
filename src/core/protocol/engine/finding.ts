import { lampCode } from '../../animal/lamp.js';
import { dayNumber } from '../../calendar.js';
import { said } from '../../said.js';
import type { Schedule } from '../document/document.js';
import type { DueItem } from '../due.js';
import type { Subject } from '../input.js';

/** A look with the lamp that showed a glow, or left people unsure, was done; that it was done is not all there is to say. */
export function withFinding(subject: Subject, schedule: Schedule, item: DueItem): DueItem {
  if (schedule.action !== 'look' || !schedule.satisfiedBy.includes(lampCode)) return item;
  const last = subject.input.animal.observations.findLast(
    ({ code, on }) => code === lampCode && dayNumber(on) <= subject.today,
  );
  const answer = last?.answer;
  if (last === undefined || answer === undefined || answer === 'no-glow') return item;
  const because = said(`due.lamp.${answer}`, { schedule: schedule.name, on: { date: last.on }, next: item.because });
  return { ...item, because, finding: answer };
}
