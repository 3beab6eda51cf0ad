import type { PersonId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import { deskAndMedical, type Raised } from '../flags/flag.js';
import { roleAt } from './documents/ground-on.js';
import { type RoleChange, roleFlagKey } from './roles.js';
import type { Shelter } from './shelter.js';

/**
 * Changes of roles, each told once, also when it was taken back. One that gives the word of the medical team and was not
 * made by that team, and one that somebody made of their own role, is a stop which only the medical team closes.
 */
export const roleFlags = (shelter: Shelter): Raised[] =>
  shelter.roleChanges.map((change): Raised => {
    const { person, from, to, record, at, by, writtenBy, until, answered } = change;
    const isStop = to === 'medical' ? !byMedical(shelter, change) : isOwn(change, person);
    const values = {
      person: { person },
      by: { person: by },
      from: said(`parts.role.${from}`),
      to: said(`parts.role.${to}`),
      at: { instant: at },
      count: answered,
    };
    const why =
      until === null
        ? said('flag.role-changed', values)
        : said('flag.role-changed.until', { ...values, until: { instant: until } });
    return {
      key: roleFlagKey(change),
      code: 'role-changed',
      severity: isStop ? 'stop' : 'attention',
      animal: null,
      about: record,
      raisedAt: at,
      for: deskAndMedical,
      why,
      by,
      ...(writtenBy === undefined ? {} : { writtenBy }),
      ...(isStop ? { closedBy: 'medical' as const } : {}),
    };
  });

const handsOf = ({ by, writtenBy }: RoleChange): readonly PersonId[] => [by, writtenBy ?? by];

const isOwn = (change: RoleChange, person: PersonId): boolean => handsOf(change).includes(person);

const byMedical = (shelter: Shelter, change: RoleChange): boolean =>
  !isOwn(change, change.person) && handsOf(change).every((one) => roleAt(shelter, one, change.at) === 'medical');
