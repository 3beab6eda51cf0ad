import type { GateCode } from '../../../core/dosing/gate.js';

/** What gets a team past a stop: weigh, take another lot, a word of the medical team, or nothing at all. */
export type GateWay = 'weigh' | 'other-lot' | 'make-up' | 'medical' | 'nobody';

/**
 * Who may open which stop. A stop about the weight or the lot is cleared by doing the thing right; limits of the label
 * and of the dose only by the medical team (CA and other practice acts leave off-label use to the veterinarian); what
 * harms cats by nobody.
 */
const ways: Readonly<Partial<Record<GateCode, GateWay>>> = {
  'not-for-species': 'nobody',
  'never-for-cats': 'nobody',
  'lot-expired': 'other-lot',
  'lot-withdrawn': 'other-lot',
  'weight-missing': 'weigh',
  'weight-stale': 'weigh',
  'weight-doubtful': 'weigh',
  'strength-twin': 'other-lot',
  'not-made-up': 'make-up',
  'made-up-too-old': 'make-up',
  'no-recipe': 'nobody',
};

/** A stop that is not named above belongs to the medical team. */
export const wayPast = (code: GateCode): GateWay => ways[code] ?? 'medical';
