import type { Flag } from '../../flag.js';

/** Flags that keep an animal out of shared rooms until there is a result or the medical team's answer. */
const keepsApart: readonly string[] = [
  'reactive',
  'mark-not-counted',
  'reading-taken-back',
  'lamp-glow',
  'lamp-unsure',
  'glow-taken-back',
];

/** Whether a flag holds its animal apart: while it is open, and behind a plan until the result is there. */
export const holdsApart = ({ code, state, followUp }: Flag): boolean =>
  keepsApart.includes(code) && (state !== 'answered' || followUp?.holds === true);
