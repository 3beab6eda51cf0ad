import { exactly } from '../quantity/exact.js';
import { writeNumber, writePercent } from '../quantity/write.js';
import { said } from '../said.js';
import type { Dose } from './dose.js';
import { type Gate, gate } from './gate.js';

/**
 * Compares a volume somebody says they drew or gave, whole microlitres, with the dose. Null when it is the mark or
 * within `tolerancePercent` of the exact volume. Half or less, or one and a half times or more, stops (ours: a tenfold
 * slip and a swapped unit are far beyond it); anything else outside goes to a second person. It never refuses the fact:
 * what was given is recorded, with this beside it.
 */
export function compareWithDose(volume_ul: number, dose: Dose, tolerancePercent: string): Gate | null {
  if (dose.unrounded_ul === null || volume_ul === dose.total_ul) return null;
  const exact = exactly(dose.unrounded_ul);
  if (exact.isZero()) return null;
  const ratio = exactly(volume_ul).div(exact);
  const percent = ratio.sub(1).mul(100);
  if (percent.abs().lte(tolerancePercent)) return null;
  const values = {
    given: { microlitres: volume_ul },
    dose: { microlitres: dose.total_ul ?? dose.exact_ul ?? 0 },
    times: writeNumber(ratio, 1),
    percent: writePercent(percent.abs(), 0),
  };
  if (ratio.gte('1.5')) return gate('not-the-dose', 'stop', said('dose.gate.given-over', values));
  if (ratio.lte('0.5')) return gate('not-the-dose', 'stop', said('dose.gate.given-under', values));
  return gate('not-the-dose', 'second-person', said('dose.gate.given-off', values));
}
