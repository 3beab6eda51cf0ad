import type { SectionRank } from './section.js';

export interface SectionDefaults {
  /** What to put on before going in, in order: keys of the message catalogue. */
  readonly wear: readonly string[];
  /** What to do on leaving, in order: keys of the message catalogue. */
  readonly leave: readonly string[];
  readonly contactMinutes: number;
}

const cleanLeave = ['leave.gloves', 'leave.hands', 'leave.cart'] as const;
const sickLeave = ['leave.gown', 'leave.gloves', 'leave.boots', 'leave.hands', 'leave.cart', 'leave.device'] as const;

/**
 * What a new section starts with, by infection rank; the shelter changes it to its own rules.
 *
 * Gloves fresh for each litter: nursery practice. Gown, gloves, shoe covers or dedicated boots in isolation, kept apart
 * and changed on leaving: BSAVA manual, chapter on biosecurity in shelters, and ASPCA on foot baths (never offered
 * here). Boots and gown before quarantine: common practice, no source. Ten wet minutes: bleach 1:32 in the UC Davis
 * ringworm guidebook, ch. 6; the label of the product in use decides. Device wiped with a damp cloth, never sprayed:
 * common practice, no source; in isolation it goes into a bag that is thrown away (after NASPHV and PLoS ONE
 * 10.1371/journal.pone.0106445).
 */
export const sectionDefaults: Readonly<Record<SectionRank, SectionDefaults>> = {
  'clean-kittens': { wear: ['wear.gloves'], leave: [...cleanLeave], contactMinutes: 10 },
  'clean-adults': { wear: ['wear.gloves'], leave: [...cleanLeave], contactMinutes: 10 },
  foster: { wear: ['wear.gloves'], leave: [...cleanLeave], contactMinutes: 10 },
  intake: { wear: ['wear.gloves'], leave: [...cleanLeave], contactMinutes: 10 },
  quarantine: { wear: ['wear.boots', 'wear.gown', 'wear.gloves'], leave: [...sickLeave], contactMinutes: 10 },
  isolation: {
    wear: ['wear.boots', 'wear.gown', 'wear.sleeves', 'wear.gloves', 'wear.device-bag'],
    leave: [...sickLeave],
    contactMinutes: 10,
  },
};
