import type { Animal } from '../../core/animal/animal.js';
import { addDays, type CalendarDate } from '../../core/calendar.js';
import type { DueItem } from '../../core/protocol/due.js';
import { said } from '../../core/said.js';
import { type Raised, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { foldAnimal } from '../views/animal.js';
import { seenThatKeepsApart } from '../views/apart/keep-apart.js';
import { groundOn, isMedical } from '../views/documents/ground-on.js';
import { dueOf } from '../views/due/due.js';
import { effective, isLater, isSlipOfTheDay, rootOf, writtenOn } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { correctionsIn } from '../views/parts.js';
import { signIn } from '../views/sick.js';

type Noted = LogRecord<'observation-noted'>;

/**
 * Observations that somebody who is not of the medical team withdrew or corrected away: those that a person of the medical
 * team had noted, and those that held something or kept the animal apart. The flag says who took back what, of whom, and
 * what became due by it then; only the medical team's answer closes it. What the lamp showed has a flag of its own (`takenBackFlags`).
 */
export function observationBackFlags(animal: Animal, records: readonly LogRecord[], ground: Ground): Raised[] {
  if (correctionsIn(records).length === 0) return [];
  const find = (id: string) => records.find((record) => record.id === id);
  const roots = records.filter((record) => record.kind === 'observation-noted' && rootOf(record, find) === record);
  return roots.flatMap((root): Raised[] => {
    const corrections = records.filter((record) => record !== root && rootOf(record, find) === root);
    if (corrections.length === 0) return [];
    const versions = [root, ...corrections.sort((a, b) => (isLater(a, b) ? 1 : -1))];
    const last = versions.at(-1) ?? root;
    const flags = versions.flatMap((found, index): Raised[] => {
      if (found.kind !== 'observation-noted' || isOfLamp(found) || stillSaid(found, last)) return [];
      const taker = versions.slice(index + 1).find((one) => !stillSaid(found, one));
      if (taker === undefined) return [];
      if (isMedical(ground, taker)) return [];
      const { freed, apart } = endedBy(animal, records, ground, found, taker, versions);
      const isSign = signIn(found) !== null && taker.by !== found.by;
      if (freed.length === 0 && !apart && !isSign && !isMedical(ground, found)) return [];
      return [flagOf(animal, found, taker, freed, apart)];
    });
    // What several versions had said is taken back once.
    return flags.filter(({ key }, at) => flags.findIndex((other) => other.key === key) === at);
  });
}

function flagOf(animal: Animal, found: Noted, taker: LogRecord, freed: readonly DueItem[], apart: boolean): Raised {
  const code = 'observation-taken-back';
  const why =
    freed.length > 0
      ? (`flag.${code}.due` as const)
      : apart
        ? (`flag.${code}.apart` as const)
        : (`flag.${code}` as const);
  return {
    key: `${code}:${taker.id}`,
    code,
    severity: freed.length > 0 || apart ? 'stop' : 'attention',
    animal: animal.id,
    about: found.id,
    raisedAt: taker.recordedAt,
    for: ['medical', 'supervisor'],
    why: said(why, {
      animal: animal.name,
      what: found.body.code,
      state: found.body.state,
      noted: { person: found.by },
      person: { person: taker.by },
      on: { instant: found.happenedAt },
      due: { list: freed.map(({ scheduleName }) => scheduleName) },
    }),
    by: taker.by,
    ...writerOf(taker),
    closedBy: 'medical',
  };
}

const isOfLamp = ({ body }: Noted): boolean => body.answer === 'glow' || body.answer === 'unsure';

/** Says of what was found that it is no more, also of a later day than is known. */
const saysOver = (record: LogRecord, { body }: Noted): boolean =>
  record.kind === 'observation-noted' && record.body.code === body.code && record.body.state === 'absent';

/** Another wording, or a longer time, takes nothing back. */
function stillSaid({ body }: Noted, other: LogRecord): boolean {
  if (other.kind !== 'observation-noted') return false;
  const { code, state, on, until } = other.body;
  const asLong = until === null || (body.until !== null && until >= body.until);
  return code === body.code && state === body.state && on <= body.on && asLong;
}

/**
 * What waited while the observation stood and no longer did when it was taken back, by the engine of the due list; and
 * whether it kept the animal apart until then, and not as long afterwards.
 */
function endedBy(
  animal: Animal,
  records: readonly LogRecord[],
  ground: Ground,
  found: Noted,
  taker: LogRecord,
  versions: readonly LogRecord[],
): { readonly freed: readonly DueItem[]; readonly apart: boolean } {
  const on = writtenOn(taker);
  const then = groundOn(ground, on);
  const rest = records.filter(
    (record) => !versions.includes(record) && record.recordedAt <= taker.recordedAt && record.kind !== 'animal-left',
  );
  const upTo = (last: LogRecord, others: readonly LogRecord[]): Animal | null =>
    foldAnimal(animal.id, effective([...others, ...versions.slice(0, versions.indexOf(last) + 1)]), then);
  // That it was over had been said by somebody whose word does not end it; taken back as well, it would be told nowhere.
  const unended = rest.filter((record) => !saysOver(record, found) || isMedical(ground, record));
  const [before, after] = [upTo(found, unended), upTo(taker, rest)];
  const dueOn = (folded: Animal | null): readonly DueItem[] => (folded === null ? [] : dueOf(folded, then, on));
  const now = dueOn(after);
  const freed = dueOn(before).flatMap((was) => {
    const is = now.find(({ schedule }) => schedule === was.schedule);
    return was.status === 'on-hold' && is !== undefined && is.status !== 'on-hold' ? [is] : [];
  });
  const isApart = (folded: Animal | null, day: CalendarDate): boolean =>
    folded !== null && seenThatKeepsApart(folded, then, day).some(({ code }) => code === found.body.code);
  // To the last day that it was to hold; a year stands for one without an end.
  const last = found.body.until ?? addDays(on, 365);
  const apart = !isSlipOfTheDay(found, taker) && isApart(before, on) && !(isApart(after, on) && isApart(after, last));
  return { freed, apart };
}
