import type { LotId } from '../../../core/ids.js';
import type { Lot, Shelter } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { Field } from '../../parts/field.js';
import { useShelter } from '../../store/here.js';

/** What a lot on paper is on record: one of the list, words that are on no list, or nothing where nothing is written. */
export interface LotWritten {
  readonly lot: LotId | null;
  readonly lotText: string;
}

const plain = (text: string): string => text.replace(/\s+/g, '').toUpperCase();

/** Compared as text without regard to case and blanks; nothing is repaired, and of two with one name neither is taken. */
export function lotWritten(shelter: Shelter, wanted: (of: Lot['of']) => boolean, text: string): LotWritten {
  const lotText = text.trim();
  if (lotText === '') return { lot: null, lotText: '' };
  const found = [...shelter.lots.values()].filter((lot) => wanted(lot.of) && plain(lot.lotText) === plain(text));
  const [one] = found;
  return one !== undefined && found.length === 1 ? { lot: one.id, lotText: '' } : { lot: null, lotText };
}

interface LotFieldProps {
  readonly label: string;
  readonly wanted: (of: Lot['of']) => boolean;
  readonly text: string;
  readonly onText: (text: string) => void;
}

/** The lot as written on the paper, or nothing; it never begins with the one that was printed or is on the shelf. */
export function LotField({ label, wanted, text, onText }: LotFieldProps) {
  const shelter = useShelter();
  const { lot } = lotWritten(shelter, wanted, text);
  const known = lot === null ? undefined : shelter.lots.get(lot);
  const echo =
    text.trim() === ''
      ? say('ribbon.key-in.lot-empty')
      : known === undefined
        ? say('ribbon.key-in.lot-not-listed')
        : known.expires === null
          ? say('ribbon.key-in.lot-listed')
          : say('ribbon.key-in.lot-expires', { on: { date: known.expires } });
  return <Field label={label} value={text} onChange={onText} figure narrow maxLength={60} echo={echo} />;
}
