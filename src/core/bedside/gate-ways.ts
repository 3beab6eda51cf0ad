import type { Gate, GateCode } from '../dosing/gate.js';

/** What gets a team past a stop: weigh, take another lot or vial, a word of the medical team, another order, or nothing. */
export type GateWay = 'weigh' | 'other-lot' | 'other-or-word' | 'make-up' | 'medical' | 'order' | 'nobody';

/**
 * Who may open which stop. A stop about the weight or the lot is cleared by doing the thing right, for an expired lot
 * or another strength also by a veterinarian's word; limits of the label and of the dose only by the medical team (CA and other practice acts leave off-label use to the veterinarian); what
 * harms cats by nobody.
 */
const ways: Readonly<Partial<Record<GateCode, GateWay>>> = {
  'never-for-cats': 'nobody',
  'lot-expired': 'other-or-word',
  'lot-withdrawn': 'other-lot',
  'weight-missing': 'weigh',
  'weight-stale': 'weigh',
  'weight-doubtful': 'weigh',
  'strength-twin': 'other-or-word',
  'not-made-up': 'make-up',
  'made-up-too-old': 'make-up',
  'no-recipe': 'nobody',
};

/** A stop that is not named above belongs to the medical team. */
export const wayPast = (code: GateCode): GateWay => ways[code] ?? 'medical';

/** Whether a veterinarian's word is among the ways past. */
export const wordOpens = (way: GateWay): boolean => way === 'medical' || way === 'other-or-word';

/**
 * The stops that hold any amount back, as they hold the card's: all that nobody has opened, while another strength than the
 * product's own is in the hand. Of the right strength what was given is a fact, recorded with the stop beside it.
 */
export const holdsBack = (gates: readonly Gate[], passed: readonly { readonly gate: string }[]): Gate[] =>
  gates.some(({ code }) => code === 'strength-twin')
    ? gates.filter(({ code, severity }) => severity === 'stop' && !passed.some(({ gate }) => gate === code))
    : [];
