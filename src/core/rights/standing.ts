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

export const isAny = (allowed: readonly Standing[], has: readonly Standing[]): boolean =>
  has.some((one) => allowed.includes(one));
