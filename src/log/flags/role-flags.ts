import type { PersonId } from '../../core/ids.js';
import { type Said, said } from '../../core/said.js';
import { deskAndMedical, type Raised } from '../flag.js';
import { roleAt } from '../views/documents/ground-on.js';
import { type RoleChange, roleFlagKey } from '../views/roles.js';
import type { Shelter } from '../views/shelter.js';

/**
 * Changes of roles, each told once, also when it was taken back. One that gives the word of the medical team and was not
 * made by that team, and one that somebody made of their own role, is a stop which only the medical team closes; so is who
 * comes to that team, leaves it or comes back without it, and nothing else of these is told.
 */
export const roleFlags = (shelter: Shelter): Raised[] =>
  shelter.roleChanges.flatMap((change): Raised[] => {
    const { what, person, to, record, at, by, writtenBy } = change;
    if (what !== 'role' && byMedical(shelter, change)) return [];
    const isStop = what !== 'role' || (to === 'medical' ? !byMedical(shelter, change) : isOwn(change, person));
    const flag: Raised = {
      key: roleFlagKey(change),
      code: 'role-changed',
      severity: isStop ? 'stop' : 'attention',
      animal: null,
      about: record,
      raisedAt: at,
      for: deskAndMedical,
      why: whyOf(change),
      by,
      ...(writtenBy === undefined ? {} : { writtenBy }),
      ...(isStop ? { closedBy: 'medical' as const } : {}),
    };
    return [flag];
  });

function whyOf({ what, person, by, from, to, at, until, answered }: RoleChange): Said {
  const who = { person: { person }, by: { person: by }, at: { instant: at } };
  if (what === 'left') return said('flag.role-changed.left', who);
  if (what !== 'role') return said(`flag.role-changed.${what}`, { ...who, count: answered });
  const values = { ...who, from: said(`parts.role.${from}`), to: said(`parts.role.${to}`), count: answered };
  return until === null
    ? said('flag.role-changed', values)
    : said('flag.role-changed.until', { ...values, until: { instant: until } });
}

const handsOf = ({ by, writtenBy }: RoleChange): readonly PersonId[] => [by, writtenBy ?? by];

const isOwn = (change: RoleChange, person: PersonId): boolean => handsOf(change).includes(person);

/** Whether the medical team made a change; of leaving it, one's own word is as good. */
function byMedical(shelter: Shelter, change: RoleChange): boolean {
  const { what, person, at } = change;
  if (what !== 'left' && isOwn(change, person)) return false;
  return handsOf(change).every((one) => (what === 'left' && one === person) || roleAt(shelter, one, at) === 'medical');
}
