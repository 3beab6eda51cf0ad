import { type Animal, numbersOn } from '../../../core/animal/animal.js';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { AnimalId } from '../../../core/ids.js';
import type { ChipEntry } from '../../chip-index.js';
import type { LogRecord } from '../../record.js';
import { carriedElsewhere } from '../chips/chip-elsewhere.js';
import type { World } from '../world.js';
import { isLeft } from './is-left.js';
import type { AnimalStop, RoundView } from './round.js';

/** What a chip read on an animal says about which animal it is. */
export type ScanMeaning =
  | { readonly is: 'match' }
  /** The chip is on another animal's record. */
  | { readonly is: 'other'; readonly animal: Animal }
  /** The chip is on the record of an animal that is not on this device: it left. */
  | { readonly is: 'elsewhere'; readonly entry: ChipEntry }
  /** The chip is on nobody's record, and this animal is known to carry another one. */
  | { readonly is: 'not-this'; readonly expected: string }
  /** The chip is on nobody's record, and this animal has none on record: a finding, but no proof of identity. */
  | { readonly is: 'unknown' };

/** Compares a chip that was read with all that are on record. `code` is a number as `readChip` gives it. */
export function meaningOfScan(animal: Animal, code: string, world: Pick<World, 'animals' | 'chips'>): ScanMeaning {
  if (numbersOn(animal).some((own) => sameChip(own, code))) return { is: 'match' };
  for (const other of world.animals.values()) {
    if (other.id !== animal.id && other.chip !== null && sameChip(other.chip.code, code)) {
      return { is: 'other', animal: other };
    }
  }
  const entry = carriedElsewhere(world, code);
  if (entry !== null) return { is: 'elsewhere', entry };
  return animal.chip === null ? { is: 'unknown' } : { is: 'not-this', expected: animal.chip.code };
}

/** What somebody is told by a scan of the animal; null where nothing was read. */
export const toldBy = (
  animal: Animal,
  code: string | null,
  world: Pick<World, 'animals' | 'chips'>,
): ScanMeaning['is'] | null => (code === null ? null : meaningOfScan(animal, code, world).is);

type Scan = LogRecord<'chip-scanned'>;
type Identified = LogRecord<'animal-identified'>;

/**
 * Chips read to identify an animal that are not its own, and that nobody has answered by making sure of it again: as
 * long as there is one, on whatever device it was read, the animal is not identified. An answer is an identification
 * that the same device made later by its own count, or one, on any device, that names the scan. No clock is asked.
 * `own` are the records of the animal that stand, of one round, in the order of the devices.
 */
export function contradictions({ animal, own }: Pick<AnimalStop, 'animal' | 'own'>): Scan[] {
  const scans = own.filter((record): record is Scan => record.kind === 'chip-scanned');
  // What a sheet of paper says was made sure of then answers no scan, and proves nothing to these hands.
  const made = own.filter((record): record is Identified => isMadeSure(record));
  const answered = (scan: Scan): boolean =>
    made.some(
      (one) =>
        isLater(one, scan) ||
        one.body.answers.some((id) => {
          const named = scans.find((other) => other.id === id);
          if (named === undefined) return false;
          // One that was answered since as another cat's has the count of that answer, and orders nothing.
          return named.id === scan.id || (!named.body.ofAnother && isLater(named, scan));
        }),
    );
  return scans.filter((scan) => {
    const { occasion, found, ofAnother } = scan.body;
    if (occasion !== 'identify' || found === null || ofAnother) return false;
    return !(animal.chip !== null && sameChip(animal.chip.code, found.code)) && !answered(scan);
  });
}

/** A wrong chip stops only while there is something to do: after that it opens the animal that carries it. */
export const isStopped = (stop: AnimalStop): boolean => stop.lines.some(isLeft) && contradictions(stop).length > 0;

/** Made sure of at the animal itself, not written down from paper. */
const isMadeSure = (record: LogRecord): record is Identified =>
  record.kind === 'animal-identified' && record.body.by !== 'paper';

/** Later by the count of the same device; nothing is said about two devices. */
const isLater = (one: LogRecord, other: LogRecord): boolean =>
  one.device === other.device && one.deviceSeq > other.deviceSeq;

/** The device that the animal is in the hands of, and its count when the person who works on it last changed. */
export interface Hands {
  readonly device: string;
  readonly since: number;
}

/** Every animal that hands may be on during the round, those too that have only an order as needed. */
const everyStop = ({ stops }: RoundView): AnimalStop[] => stops.flatMap((at) => [...at.animals, ...at.asNeeded]);

/** What this device made sure of last on the round, by its own count; null when that was before the person changed. */
export function lastIdentified(view: RoundView, { device, since }: Hands): Identified | null {
  let last: Identified | null = null;
  for (const stop of everyStop(view)) {
    for (const record of stop.own) {
      if (!isMadeSure(record) || record.device !== device || record.deviceSeq < since) continue;
      if (last === null || record.deviceSeq > last.deviceSeq) last = record;
    }
  }
  return last;
}

/**
 * Whether the animal is still the one in the hands: the person who works now has made sure of it on this round and this
 * device, of no other animal since, and no chip that is not its own has been read on it since, on any device.
 */
export function identityHolds(view: RoundView, animal: AnimalId, hands: Hands): boolean {
  const last = lastIdentified(view, hands);
  if (last?.subject !== `animal:${animal}`) return false;
  const stop = everyStop(view).find((one) => one.animal.id === animal);
  return stop !== undefined && contradictions(stop).length === 0;
}
