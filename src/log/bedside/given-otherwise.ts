import type { LotId } from '../../core/ids.js';
import { readVolume, type SyringeScale } from '../../core/quantity/read-volume.js';
import { writeVolume } from '../../core/quantity/write.js';
import type { BodyInput } from '../kinds/index.js';
import type { LogRecord } from '../record.js';

type Given = LogRecord<'treatment-given'>['body'];

/** What of a dose can be put otherwise afterwards, as it is typed at the cage or at the desk. */
export interface GivenTyped {
  /** A volume, or pieces where the dose is counted in pieces. */
  readonly amount: string;
  /** Chosen of two readings of the volume, microlitres. */
  readonly chosen: number | null;
  readonly lot: LotId | null;
  /** The lot as it stands on the vial, where it is not in stock. */
  readonly lotText: string;
  readonly box: LotId | null;
  readonly outcome: Given['outcome'];
  readonly note: string;
}

export const typedOf = (body: Given): GivenTyped => ({
  amount: body.volume_ul === null ? body.pieces : writeVolume(body.volume_ul),
  chosen: null,
  lot: body.lot,
  lotText: body.lotText,
  box: body.syringeLot,
  outcome: body.outcome,
  note: body.note,
});

/**
 * The dose as it is said now, null while the amount cannot be read. A dose by volume stays one, and so do pieces; only where
 * none were written may they stay away. A lot of the stock and a lot in words are not both true.
 */
export function givenOtherwise(
  body: Given,
  typed: GivenTyped,
  scale: SyringeScale | null,
): BodyInput<'treatment-given'> | null {
  const { lot, box, outcome, note } = typed;
  const amount = typed.amount.trim();
  const lotText = lot === null ? typed.lotText.trim() : '';
  const said = { ...body, lot, lotText, syringeLot: box, outcome, note };
  if (body.volume_ul === null) return amount === '' && body.pieces !== '' ? null : { ...said, pieces: amount };
  const reading = amount === '' ? null : readVolume(amount, scale);
  const volume_ul = typed.chosen ?? (reading?.is === 'volume' ? reading.ul : null);
  return volume_ul === null ? null : { ...said, volume_ul, pieces: '' };
}
