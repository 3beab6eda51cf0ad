import type { Role } from '../core/people.js';
import { say } from '../words/say.js';

/** What is on this device alone: not sent yet, or turned away by the server. */
interface Unsent {
  readonly unsent: number;
  readonly turnedAway: number;
}

const who = (roles: readonly Role[]) => ({ list: roles.map((role) => say(`parts.role.${role}`)) });

/** For whom a flag is raised, and whether it has left this device. */
export const sayFlagged = (roles: readonly Role[], { unsent, turnedAway }: Unsent): string =>
  say(unsent + turnedAway > 0 ? 'parts.flagged-in-reach' : 'parts.flagged', { who: who(roles) });

/** Before something is recorded that goes to others at once: who they are. */
export const sayWillBeFlagged = (roles: readonly Role[]): string => say('parts.will-be-flagged', { who: who(roles) });
