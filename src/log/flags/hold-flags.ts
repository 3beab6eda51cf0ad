import type { Animal, PlacedHold } from '../../core/animal/animal.js';
import { holdNamed } from '../../core/animal/named.js';
import { type CalendarDate, daysBetween } from '../../core/calendar.js';
import type { AnimalId, PersonId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import { heldLongFrom } from '../../core/protocol/held-long.js';
import { made, said } from '../../core/said.js';
import { deskAndMedical, type Flag, type Raise, type Raised } from '../flag.js';
import type { LogRecord } from '../record.js';
import { dueOf, protocolFor } from '../views/due/due.js';
import type { Ground } from '../views/ground.js';

/** Days after which what is still on hold is asked about again, answered or not. Our choice, no source. */
const again_days = 28;

/**
 * Holds that somebody has to look at: one whose day of looking again has come, one that nobody who works here looks after, and treatments
 * that have been on hold for longer than the protocol lets them wait, unless somebody looks after them until a day to come.
 */
export function holdFlags(
  animal: Animal,
  ground: Ground,
  standing: readonly LogRecord[],
  today: CalendarDate,
  raise: Raise,
): Raised[] {
  if (animal.left !== null) return [];
  const at = (hold: PlacedHold) => standing.find(({ id }) => id === hold.record);
  for (const hold of animal.holds) {
    const record = at(hold);
    if (record === undefined || today < hold.from || (hold.until !== null && hold.until < today)) continue;
    const what = holdNamed(hold);
    const { owner, recheckOn } = hold;
    const works = ground.people.some(({ id, active }) => id === owner && active);
    if (owner === null || !works) raise('hold-nobodys', 'attention', record, deskAndMedical, { what });
    else if (recheckOn !== null && recheckOn <= today) {
      const values = { what, person: { person: owner }, date: { date: recheckOn } };
      // Another day of looking again is another cause.
      raise('hold-recheck', 'attention', record, deskAndMedical, values, recheckOn);
    }
  }
  return heldLongFlags(animal, ground, today);
}

/** Of every flag about one reason; which time it is asked about stands behind it. */
const causeOf = (animal: AnimalId, code: string): string => `held-long:${animal}:${code}:`;

/** One flag for each reason, with all that it holds up; a new one every four weeks. */
function heldLongFlags(animal: Animal, ground: Ground, today: CalendarDate): Raised[] {
  const protocol = protocolFor(ground, animal.section);
  if (protocol?.heldLong == null) return [];
  const found = new Map<string, { readonly items: DueItem[]; from: CalendarDate }>();
  for (const item of dueOf(animal, ground, today)) {
    const from = heldLongFrom(item, protocol);
    const { hold } = item;
    if (hold === null || from === null || from > today || isLookedAfter(hold, today)) continue;
    const one = found.get(hold.code);
    if (one === undefined) found.set(hold.code, { items: [item], from });
    else {
      one.items.push(item);
      if (from < one.from) one.from = from;
    }
  }
  return [...found].map(([code, { items, from }]): Raised => {
    const why = items[0]?.hold?.why ?? said('desk.no-end');
    const values = { animal: animal.name, treatments: { list: items.map(({ scheduleName }) => scheduleName) }, why };
    return {
      key: `${causeOf(animal.id, code)}${Math.floor(daysBetween(from, today) / again_days)}`,
      code: 'held-long',
      severity: 'attention',
      animal: animal.id,
      about: null,
      raisedAt: `${from}T00:00:00.000Z`,
      for: deskAndMedical,
      why: made('flag.held-long', values),
      by: null,
    };
  });
}

/** By a person who is named, until a day that is still to come; a hold with an end ends by itself. */
const isLookedAfter = ({ owner, recheckOn, until }: NonNullable<DueItem['hold']>, today: CalendarDate): boolean =>
  (until !== null && until >= today) || (owner != null && recheckOn != null && recheckOn > today);

/** Who looks after what is on hold: whoever is named on the hold, else whoever took the flag about it; null: nobody. */
export function looksAfter(
  flags: readonly Flag[],
  { animal, hold }: Pick<DueItem, 'animal' | 'hold'>,
): { readonly person: PersonId; readonly again: CalendarDate | null } | null {
  if (hold === null) return null;
  if (hold.owner != null) return { person: hold.owner, again: hold.recheckOn ?? null };
  const taken = flags.find((flag) => flag.key.startsWith(causeOf(animal, hold.code)) && flag.answer?.taken);
  return taken?.answer?.taken == null ? null : { person: taken.answer.taken.by, again: null };
}
