import { DueLine } from '../api/wire.js';
import type { Said } from '../core/said.js';
import type { AnimalRow, DueRow } from '../log/read-rows.js';
import type { Say } from '../words/say.js';

/** Names of what a row points at; the section's is empty when the animal is in none. */
interface Named {
  readonly section: string;
  readonly schedule: string;
}

/** One line of the due list, on the wire as in a file: a row of the read tables, with its names, and why in words. */
export const dueLine = (
  row: DueRow,
  { label, name, kennel, litter }: Pick<AnimalRow, 'label' | 'name' | 'kennel' | 'litter'>,
  named: Named,
  say: Say,
): DueLine =>
  DueLine.parse({
    animal: row.animal,
    label,
    name,
    section: row.section,
    sectionName: named.section,
    kennel,
    schedule: row.schedule,
    scheduleName: named.schedule,
    dose: row.dose,
    status: row.status,
    earliest: row.earliest,
    due: row.due,
    overdueAfter: row.overdue_after,
    latest: row.latest,
    holdCode: row.hold_code,
    holdUntil: row.hold_until,
    reason: say(JSON.parse(row.because) as Said),
    protocol: row.protocol,
    litter,
  });
