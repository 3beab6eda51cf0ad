import type { z } from 'zod';
import { no, type Outcome, ok } from '../../core/said.js';
import * as animal from './animal.js';
import * as chip from './chip.js';
import * as desk from './desk.js';
import * as documents from './documents.js';
import * as gate from './gate.js';
import * as history from './history.js';
import * as order from './order.js';
import * as round from './round.js';
import * as shelter from './shelter.js';
import * as stock from './stock.js';
import * as test from './test.js';
import * as treatment from './treatment.js';

/** Every kind of record with the schema of its body. Kinds are for ever: added, never removed or re-meant. */
export const kinds = {
  'shelter-described': shelter.ShelterDescribed,
  'section-described': shelter.SectionDescribed,
  'person-described': shelter.PersonDescribed,
  'protocol-filed': documents.ProtocolFiled,
  'formulary-filed': documents.FormularyFiled,
  'document-signed': documents.DocumentSigned,
  'document-retired': documents.DocumentRetired,
  'animal-taken-in': animal.AnimalTakenIn,
  'animal-described': animal.AnimalDescribed,
  'animal-moved': animal.AnimalMoved,
  'sign-set': animal.SignSet,
  'animal-left': animal.AnimalLeft,
  'animal-weighed': animal.AnimalWeighed,
  'observation-noted': animal.ObservationNoted,
  'hold-placed': animal.HoldPlaced,
  'hold-lifted': animal.HoldLifted,
  'animal-identified': round.AnimalIdentified,
  'gate-opened': gate.GateOpened,
  'treatment-given': treatment.TreatmentGiven,
  'treatment-not-given': treatment.TreatmentNotGiven,
  'sample-drawn': test.SampleDrawn,
  'test-started': test.TestStarted,
  'test-read': test.TestRead,
  'test-abandoned': test.TestAbandoned,
  'test-followed-up': test.TestFollowedUp,
  'chip-scanned': chip.ChipScanned,
  'chip-implanted': chip.ChipImplanted,
  'chip-discarded': chip.ChipDiscarded,
  'round-planned': round.RoundPlanned,
  'round-begun': round.RoundBegun,
  'team-changed': round.TeamChanged,
  'section-entered': round.SectionEntered,
  'section-left': round.SectionLeft,
  'gloves-changed': round.GlovesChanged,
  'handed-back': round.HandedBack,
  'hand-back-accepted': round.HandBackAccepted,
  'lot-received': stock.LotReceived,
  'syringes-prepared': stock.SyringesPrepared,
  'lot-counted': stock.LotCounted,
  'lot-withdrawn': stock.LotWithdrawn,
  'kits-out-of-cold': stock.KitsOutOfCold,
  'flag-taken': desk.FlagTaken,
  'flag-answered': desk.FlagAnswered,
  'order-written': order.OrderWritten,
  'order-countersigned': order.OrderCountersigned,
  'order-ended': order.OrderEnded,
  'variant-switched': order.VariantSwitched,
  'record-withdrawn': desk.RecordWithdrawn,
  'file-imported': desk.FileImported,
  'records-sent-again': history.RecordsSentAgain,
} as const;

export type Kind = keyof typeof kinds;
export type BodyOf<K extends Kind> = z.infer<(typeof kinds)[K]>;
export type BodyInput<K extends Kind> = z.input<(typeof kinds)[K]>;

/** Version of each kind's body that is written now; 1 unless a kind is listed here. */
const versions: Partial<Record<Kind, number>> = {};
export const currentVersion = (kind: Kind): number => versions[kind] ?? 1;

/**
 * Bring an older body to the current version. Each kind lists its steps, from version 1 on, here when it first
 * changes. A body newer than this program is refused: an old program must not guess.
 */
const steps: Partial<Record<Kind, readonly ((body: unknown) => unknown)[]>> = {};
export function upcast(kind: Kind, version: number, body: unknown): Outcome<unknown> {
  if (version > currentVersion(kind)) return no('log.newer-version', { kind, version });
  return ok((steps[kind] ?? []).slice(version - 1).reduce((value, step) => step(value), body));
}
