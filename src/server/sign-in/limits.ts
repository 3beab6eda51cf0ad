/** How long what holds, written down once. Hours and tries are our choice, no source, within what OWASP ASVS 5.0.0 asks for. */
export const signInLimits = {
  /** A session that nobody used for so long is over (V7.3.1). */
  idle_ms: 24 * 3_600_000,
  /** And any session after so long (V7.3.2). */
  absolute_ms: 14 * 24 * 3_600_000,
  /** So long after a password was given, what takes a veterinarian may be signed. */
  fresh_ms: 10 * 60_000,
  /** A code for a person's first password or PIN, and one that enrols a device (V6.4.1, V6.5.1). */
  personCode_ms: 24 * 3_600_000,
  deviceCode_ms: 15 * 60_000,
  /** Wrong tries before the next has to wait, for one person and for one address of the network (V6.3.1). */
  freeTries: 5,
  freeTriesFrom: 20,
  firstWait_ms: 30_000,
  longestWait_ms: 15 * 60_000,
  /** Characters of a password (V6.2.1, V6.2.9) and digits of a PIN. */
  password: { least: 8, most: 128 },
  pin: 6,
  /** How far a record's time may lie before the sign-in it was written under: a clock that is not known may be off. */
  clockUnknown_ms: 24 * 3_600_000,
  clockKnown_ms: 10 * 60_000,
} as const;
