import type { Role } from '../core/people.js';
import { type SayValue, said } from '../core/said.js';
import { type Kind, kinds } from './kinds/index.js';

const anyone: readonly Role[] = ['volunteer', 'supervisor', 'medical', 'caregiver'];
const treating: readonly Role[] = ['volunteer', 'supervisor', 'medical'];
const desk: readonly Role[] = ['supervisor', 'medical'];
const medical: readonly Role[] = ['medical'];

/**
 * Which roles may append which kind of record. Sections, people and stock belong to the desk, documents to the medical
 * team (signing also asks for a licence), everything that happens to an animal to those who treat it.
 * A record by somebody who may not is turned away and stays on the device.
 */
export const whoMay: Readonly<Record<Kind, readonly Role[]>> = {
  'shelter-described': desk,
  'section-described': desk,
  'person-described': desk,
  'protocol-filed': medical,
  'formulary-filed': medical,
  'document-signed': medical,
  'document-retired': medical,
  'animal-taken-in': desk,
  'animal-described': treating,
  'animal-moved': treating,
  'sign-set': treating,
  'animal-left': desk,
  'animal-weighed': anyone,
  'observation-noted': anyone,
  'hold-placed': desk,
  'hold-lifted': desk,
  'animal-identified': treating,
  'gate-opened': treating,
  'treatment-given': treating,
  'treatment-not-given': treating,
  'sample-drawn': treating,
  'test-started': treating,
  'test-read': treating,
  'test-abandoned': treating,
  'test-followed-up': desk,
  'chip-scanned': anyone,
  'chip-implanted': treating,
  'chip-discarded': treating,
  'round-planned': treating,
  'round-begun': treating,
  'team-changed': treating,
  'section-entered': treating,
  'section-left': treating,
  'gloves-changed': treating,
  'handed-back': treating,
  'hand-back-accepted': desk,
  'lot-received': desk,
  'syringes-prepared': desk,
  'lot-counted': treating,
  'lot-withdrawn': desk,
  'kits-out-of-cold': treating,
  'flag-taken': desk,
  'flag-answered': desk,
  'order-written': medical,
  'order-countersigned': medical,
  'order-ended': medical,
  'variant-switched': medical,
  'record-withdrawn': treating,
  'file-imported': desk,
  'records-sent-again': anyone,
};

/** Who may write down what somebody else tells by telephone, beside those who may record that kind themselves. */
export const mayHear: Partial<Readonly<Record<Kind, readonly Role[]>>> = { 'order-written': desk };

/** Whose report by telephone somebody who may record that kind themselves may write down: a foster home's, above all. */
export const mayTell: Partial<Readonly<Record<Kind, readonly Role[]>>> = { 'treatment-given': anyone };

export const mayAppend = (role: Role, kind: Kind): boolean => whoMay[kind].includes(role);

/** Whether whoever may write the one kind may write the other, and nobody else: such records may take each other's place. */
export function sameHands(one: string, other: string): boolean {
  const [roles, others] = [rolesFor(one), rolesFor(other)];
  return roles.length > 0 && roles.length === others.length && roles.every((role) => others.includes(role));
}

/** Nobody for a kind that this program does not know. */
const rolesFor = (kind: string): readonly Role[] => (Object.hasOwn(whoMay, kind) ? whoMay[kind as Kind] : []);

/** Whether a role may write every kind there is. */
export const mayAppendAll = (role: Role): boolean =>
  (Object.keys(kinds) as Kind[]).every((kind) => mayAppend(role, kind));

export const rolesInWords = (roles: readonly Role[]): SayValue => ({
  list: roles.map((role) => said(`parts.role.${role}`)),
});
