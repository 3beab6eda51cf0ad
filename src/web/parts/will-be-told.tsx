import type { Role } from '../../core/people.js';
import { say } from '../../words/say.js';
import { Notice } from './state.js';

/** Before something is recorded that goes to others at once: who they are. */
export const WillBeTold = ({ roles }: { roles: readonly Role[] }) => (
  <Notice tone="attention" live="status">
    {say('parts.will-be-told', { who: { list: roles.map((role) => say(`parts.role.${role}`)) } })}
  </Notice>
);
