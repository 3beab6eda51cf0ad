/** Every reason to go on without chip or marks. */
export const overrideReasons = [
  'chip-unreadable',
  'no-reader',
  'collar-lost',
  'marks-alike',
  'label-unreadable',
  'known-to-the-team',
  'other',
] as const;

export type OverrideReason = (typeof overrideReasons)[number];

/** These say that no chip was read, that there is none, or that the team knows better than the one that was. */
const denyTheScan: readonly OverrideReason[] = ['chip-unreadable', 'no-reader', 'marks-alike', 'known-to-the-team'];

/** What can be chosen while chips that are not the animal's own, read on it, stand unanswered. */
export const reasonsWith = (unanswered: readonly unknown[]): readonly OverrideReason[] =>
  unanswered.length === 0 ? overrideReasons : overrideReasons.filter((id) => !denyTheScan.includes(id));

/**
 * Whether a dialog that was opened while the scans `opened` stood unanswered may stay open: one that came since is a stop
 * of its own, and closes it. Both are ids of records.
 */
export const staysOpen = (opened: readonly string[], unanswered: readonly string[]): boolean =>
  unanswered.every((id) => opened.includes(id));

/** What an override still waits for, as a sentence's key; null when it can be recorded. */
export function overrideWaits(
  reason: OverrideReason | null,
  unanswered: readonly string[],
  answered: readonly string[],
): 'round.why.scan-unanswered' | 'round.why.reason' | null {
  if (unanswered.some((id) => !answered.includes(id))) return 'round.why.scan-unanswered';
  return reason === null || !reasonsWith(unanswered).includes(reason) ? 'round.why.reason' : null;
}
