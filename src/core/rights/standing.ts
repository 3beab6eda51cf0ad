import type { Role } from '../people.js';

/**
 * What somebody is when it is asked what they may do: their role on record, a veterinarian where somebody of the medical
 * team has a licence, an administrator where the duty of looking after sign-ins and devices was given to them besides.
 */
export const standings = [
  'volunteer',
  'caregiver',
  'supervisor',
  'medical',
  'veterinarian',
  'administrator',
  'foster',
] as const;
export type Standing = (typeof standings)[number];

/** Everything that somebody is at once; their rights are those of all of it. */
export const standingsOf = (role: Role, licence: string, administers = false): readonly Standing[] => [
  role,
  ...(role === 'medical' && licence.trim() !== '' ? (['veterinarian'] as const) : []),
  ...(administers ? (['administrator'] as const) : []),
];

/** How far somebody's word goes about animals: what a higher hand has done is taken back by none below it. */
const reach = { foster: 0, volunteer: 1, caregiver: 1, supervisor: 2, medical: 3, veterinarian: 4 } as const;
const reachOf = (has: readonly Standing[]): number =>
  Math.max(-1, ...has.map((one) => (one === 'administrator' ? -1 : reach[one])));

/** Whether the word of the one goes further than that of the other. */
export const outranks = (one: readonly Standing[], other: readonly Standing[]): boolean =>
  reachOf(one) > reachOf(other);

export const isAny = (allowed: readonly Standing[], has: readonly Standing[]): boolean =>
  has.some((one) => allowed.includes(one));
