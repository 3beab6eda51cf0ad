import type { Role } from '../core/people.js';
import { mayHear as hears, recordRights, mayTell as tells } from '../core/rights/rights.js';
import { isAny, type Standing } from '../core/rights/standing.js';
import { type SayValue, said } from '../core/said.js';
import { type Kind, kinds } from './kinds/index.js';

/** The table of rights (core/rights/rights.ts), held against the kinds that there are. */
const whoMay: Readonly<Record<Kind, readonly Standing[]>> = recordRights;

/** Who may hear a kind of record by telephone, and whose telling of it may be written down. */
export const mayHear: Partial<Readonly<Record<Kind, readonly Standing[]>>> = hears;
export const mayTell: Partial<Readonly<Record<Kind, readonly Standing[]>>> = tells;

/** Whether somebody who is all this may append such a record; who may not is turned away, and it stays on the device. */
export const mayAppend = (has: Standing | readonly Standing[], kind: Kind): boolean =>
  isAny(whoMay[kind], typeof has === 'string' ? [has] : has);

/**
 * Whether whoever may write the one kind may write the other, and nobody else: such records may take each other's place.
 * Asked by roles alone, because a fold knows no licences.
 */
export function sameHands(one: string, other: string): boolean {
  const [roles, others] = [rolesFor(one), rolesFor(other)];
  return roles.length > 0 && roles.length === others.length && roles.every((role) => others.includes(role));
}

/** Nobody for a kind that this program does not know. */
const rolesFor = (kind: string): readonly Role[] => (Object.hasOwn(whoMay, kind) ? rolesOf(whoMay[kind as Kind]) : []);

/** Whether a kind is for a veterinarian alone: it is done by their own hand, signed in just now. */
export const takesVeterinarian = (kind: Kind): boolean => whoMay[kind].every((one) => one === 'veterinarian');

/** The roles on record behind standings: a veterinarian is of the medical team, an administrator is somebody besides. */
function rolesOf(allowed: readonly Standing[]): readonly Role[] {
  const roles = allowed.flatMap((one): readonly Role[] => {
    if (one === 'veterinarian') return ['medical'];
    return one === 'administrator' ? [] : [one];
  });
  return [...new Set(roles)];
}

/** Whether somebody may write every kind there is. */
export const mayAppendAll = (has: readonly Standing[]): boolean =>
  (Object.keys(kinds) as Kind[]).every((kind) => mayAppend(has, kind));

/** Who may record a kind, in words. */
export const whoMayInWords = (kind: Kind): SayValue => rolesInWords(whoMay[kind]);

/** A veterinarian is named where nobody else of the medical team may. */
export const rolesInWords = (allowed: readonly Standing[]): SayValue => ({
  list: allowed
    .filter((one) => one !== 'veterinarian' || !allowed.includes('medical'))
    .map((one) => said(`parts.role.${one}`)),
});
