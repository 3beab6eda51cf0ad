import papaparse from 'papaparse';
import { type Shelter, sectionOf, whyNoDocuments } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { stateOfDue, whyDue } from '../../told/due-words.js';
import type { DueGroup } from './due-list.js';

/**
 * The list as delimited text with a byte order mark, so that spreadsheets read the letters right; cells that a
 * spreadsheet would run as a formula are marked as text. Days are ISO, numbers of animals stay text.
 */
export function dueCsv(shelter: Shelter, groups: readonly DueGroup[]): string {
  const rows = groups.flatMap(({ rows: inside }) =>
    inside.map(({ animal, item }) => ({
      section: sectionOf(shelter, animal.section)?.name ?? '',
      litter: animal.litter?.name ?? '',
      kennel: animal.kennel,
      number: animal.label,
      name: animal.name,
      treatment: item.scheduleName,
      dose: item.dose,
      status: stateOfDue(item).text,
      earliest: item.earliest ?? '',
      due: item.due ?? '',
      overdue_after: item.overdueAfter ?? '',
      latest: item.latest ?? '',
      why: whyDue(item),
      protocol: `${item.protocol.id}@${item.protocol.version}`,
    })),
  );
  const because = whyNoDocuments(shelter);
  const told = because === null ? rows : [{ ...emptyRow, why: say(because) }, ...rows];
  return `\uFEFF${papaparse.unparse(told, { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}

/** A row about no animal, for what concerns the whole list. */
const emptyRow = {
  section: '',
  litter: '',
  kennel: '',
  number: '',
  name: '',
  treatment: '',
  dose: '',
  status: '',
  earliest: '',
  due: '',
  overdue_after: '',
  latest: '',
  why: '',
  protocol: '',
};
