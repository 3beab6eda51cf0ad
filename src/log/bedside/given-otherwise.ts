import type { FormularyDocument } from '../../core/dosing/formulary.js';
import type { Gate } from '../../core/dosing/gate.js';
import { judgeVolume } from '../../core/dosing/written-amount.js';
import type { LotId, PersonId } from '../../core/ids.js';
import { readVolume, type SyringeScale } from '../../core/quantity/read-volume.js';
import { microlitres } from '../../core/quantity/units.js';
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

/**
 * The volume of a correction against what was worked out at the time and the limits of the product, as at the card; stops
 * first. Empty where the amount stays as it is on record, is counted in pieces, or the product is in no signed document.
 */
export function judgeOtherwise(
  body: Given,
  { volume_ul }: BodyInput<'treatment-given'>,
  formulary: FormularyDocument | null,
): Gate[] {
  const product = formulary?.products.find(({ id }) => id === body.product);
  if (formulary === null || product === undefined || volume_ul === null || volume_ul === body.volume_ul) return [];
  const planned = body.planned_ul === null ? null : microlitres(body.planned_ul);
  return judgeVolume(volume_ul, product, formulary, {
    unrounded_ul: planned === null ? null : String(planned),
    exact_ul: planned,
    total_ul: planned,
    grams: body.grams,
    otherStrength: body.strength_mg_per_ml,
    stopped: false,
  });
}

/** What another amount answers: the stops of the one before go with it. */
const ofAmount = new Set<string>(['not-the-dose', 'limit-of-place']);

/**
 * The correction with the stops that its amount goes past, on the word of whoever keeps it. What is outside the limits is
 * not written there: its own flag tells the desk, and would be silenced.
 */
export function saidAgain(
  body: Given,
  said: BodyInput<'treatment-given'>,
  about: readonly Gate[],
  by: PersonId | null,
): BodyInput<'treatment-given'> {
  if (said.volume_ul === body.volume_ul) return said;
  const kept = body.passed.filter(({ gate, how }) => how !== 'no-word' || !ofAmount.has(gate));
  if (by === null) return { ...said, passed: kept };
  const past = about.filter(
    ({ code, severity }) => severity === 'stop' && ofAmount.has(code) && !kept.some(({ gate }) => gate === code),
  );
  return { ...said, passed: [...kept, ...past.map(({ code }) => ({ gate: code, how: 'no-word' as const, by }))] };
}
