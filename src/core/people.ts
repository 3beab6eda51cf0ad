import { z } from 'zod';
import { said } from './said.js';

/**
 * What a person may do. A volunteer treats or holds; a supervisor runs the desk; medical staff own the protocol; a
 * caregiver looks after animals between rounds; a foster home does so for its own animals alone. A veterinarian is medical
 * staff with a licence on record (core/rights/standing.ts).
 */
export const Role = z.enum(['volunteer', 'supervisor', 'medical', 'caregiver', 'foster']);
export type Role = z.infer<typeof Role>;

/** A person's name and, of a veterinarian, the licence; as they are known here and now. */
export interface NameHere {
  readonly name: string;
  /** Empty for those without one. */
  readonly licence: string;
}

/**
 * Names by person id, for whoever says a sentence. No fold reads them: what is worked out is the same whoever is known by
 * name where it is worked out.
 */
export type Names = ReadonlyMap<string, NameHere>;

export const noNames: Names = new Map();

/** How somebody is called whose name is not known here, or not any more; and their licence. */
export const notKnownHere = said('parts.person.former');
export const licenceNotHere = said('parts.person.licence-not-here');
