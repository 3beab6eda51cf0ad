import type { Role } from '../../core/people.js';
import { sayWillBeFlagged } from '../../told/flag-reach.js';
import { Notice } from './state.js';

/** Before something is recorded that goes to others at once: who they are. */
export const WillBeTold = ({ roles }: { roles: readonly Role[] }) => (
  <Notice tone="attention" live="status">
    {sayWillBeFlagged(roles)}
  </Notice>
);
