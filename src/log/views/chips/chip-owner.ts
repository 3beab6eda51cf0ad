import type { Animal } from '../../../core/animal/animal.js';
import { chipNumber, sameChip } from '../../../core/chip/read-chip.js';
import { derived } from '../../../core/derived.js';
import type { RecordId } from '../../../core/ids.js';
import { said } from '../../../core/said.js';
import { type Raised, writerOf } from '../../flag.js';
import type { LogRecord } from '../../record.js';
import type { Ground } from '../ground.js';
import { codesInBoxes } from './chip-pack.js';

/**
 * Chips that were read in an animal without one of its own on record, and that are on nobody else's: somebody may own
 * it. One that the team put off as another cat's, or as misread, is said too. Each number once for each animal.
 * A number that a reader was tried on has to be known, in a box or on another's record: else it may be this animal's.
 * `isOnAnother` says whether another animal has a number (`chipNumber`) on record.
 */
export function ownerFlags(
  animal: Animal,
  records: readonly LogRecord[],
  { lots, isOnAnother }: Pick<Ground, 'lots'> & { readonly isOnAnother: (number: string) => boolean },
): Raised[] {
  const boxed = codesInBoxes(lots);
  return [
    ...ownerlessReads(animal),
    ...strayTries(animal.scans, animal.chip, hasImplant(animal.history)).filter(({ code }) => !boxed.has(code)),
  ].flatMap((read): Raised[] => {
    const { record: id, code } = read;
    const record = records.find((one) => one.id === id);
    if (record === undefined || isOnAnother(chipNumber(code))) return [];
    const name = 'tried' in read ? 'reader-stray' : read.ofAnother ? 'chip-put-off' : 'chip-owner';
    return [
      {
        key: `${name}:${record.id}`,
        code: name,
        severity: name === 'chip-put-off' ? 'attention' : 'stop',
        animal: animal.id,
        about: record.id,
        raisedAt: record.happenedAt,
        for: ['supervisor', 'medical'],
        why: said(sentences[name], { animal: animal.name || animal.label, chip: code }),
        by: record.by,
        ...writerOf(record),
      },
    ];
  });
}

const sentences = {
  'reader-stray': 'flag.reader-stray',
  'chip-put-off': 'flag.chip-put-off',
  'chip-owner': 'flag.chip-owner',
} as const;

/** A number read in an animal that its own record does not account for, with the scan that showed it first. */
export interface OwnerlessRead {
  readonly record: RecordId;
  readonly code: string;
  readonly ofAnother: boolean;
}

export const ownerlessReads = ({ scans, chip, history }: Animal): readonly OwnerlessRead[] =>
  ownerlessIn(scans, chip, hasImplant(history));

const ownerlessIn = derived((scans: Scans, chip: Animal['chip'], hasImplant: boolean): readonly OwnerlessRead[] => {
  const told = new Set<string>();
  return scans.flatMap(({ record, target, code, occasion, ofAnother }) => {
    if (target !== 'animal' || code === null || told.has(code)) return [];
    if (occasion !== 'identify' && occasion !== 'before') return [];
    if (isImplanted(chip, hasImplant, code)) return [];
    if (occasion === 'identify' && chip !== null && ofAnother !== true) return [];
    told.add(code);
    return [{ record, code, ofAnother: ofAnother === true }];
  });
});

/** Numbers that a reader was tried on while the chip of this animal could not be read, and that are not its own. */
const strayTries = derived((scans: Scans, chip: Animal['chip'], hasImplant: boolean) =>
  scans.flatMap(({ record, target, code }) =>
    target === 'known' && code !== null && !isImplanted(chip, hasImplant, code)
      ? [{ record, code, tried: true as const }]
      : [],
  ),
);

type Scans = Animal['scans'];

const hasImplant = (history: Animal['history']): boolean =>
  history.some((one) => one.what === 'chipped' && one.implanted === true);

const isImplanted = (chip: Animal['chip'], hasImplant: boolean, code: string): boolean =>
  hasImplant && chip !== null && sameChip(chip.code, code);
