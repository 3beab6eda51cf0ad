import type { CalendarDate } from '../../core/calendar.js';
import type { LotId } from '../../core/ids.js';
import { type Said, said } from '../../core/said.js';
import type { Lot, Shelter } from '../../log/views/shelter.js';

/** What a lot on paper is on record: one of the list, words that are on no list, or nothing where nothing is written. */
export interface LotWritten {
  readonly lot: LotId | null;
  readonly lotText: string;
}

type Wanted = (of: Lot['of']) => boolean;

const plain = (text: string): string => text.replace(/\s+/g, '').toUpperCase();

const named = (shelter: Shelter, wanted: Wanted, text: string): Lot[] =>
  text.trim() === ''
    ? []
    : [...shelter.lots.values()].filter((lot) => wanted(lot.of) && plain(lot.lotText) === plain(text));

/** Compared as text without regard to case and blanks; nothing is repaired, and of two with one name neither is taken. */
export function lotWritten(shelter: Shelter, wanted: Wanted, text: string): LotWritten {
  const found = named(shelter, wanted, text);
  const [one] = found;
  return one !== undefined && found.length === 1 ? { lot: one.id, lotText: '' } : { lot: null, lotText: text.trim() };
}

/** What is wrong with the lots of this name for a use on that day, whichever of them it was: a stop, or to be looked at. */
export function lotFaults(
  shelter: Shelter,
  wanted: Wanted,
  text: string,
  on: CalendarDate,
): { readonly stop: boolean; readonly why: Said }[] {
  return named(shelter, wanted, text).flatMap(({ lotText, expires, withdrawn }) => {
    const faults: { stop: boolean; why: Said }[] = [];
    if (withdrawn !== null) {
      const why = said(`desk.withdrawn.${withdrawn.why}`);
      faults.push({
        stop: withdrawn.why !== 'used-up' && withdrawn.why !== 'other',
        why: said('ribbon.key-in.lot-withdrawn', { lot: lotText, on: { date: withdrawn.on }, why }),
      });
    }
    if (expires !== null && on > expires) {
      faults.push({ stop: true, why: said('ribbon.key-in.lot-expired', { lot: lotText, on: { date: expires } }) });
    }
    return faults;
  });
}
