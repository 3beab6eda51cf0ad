import type { FastifyBaseLogger } from 'fastify';
import type { RouteName } from '../../api/routes.js';
import { signInRoutes } from '../../api/routes-sign-in.js';
import type { Shelter } from '../../log/views/shelter.js';
import { isRefusal } from '../refusal.js';
import type { WhoAsks } from './who-asks.js';

interface Asking {
  readonly who: WhoAsks;
  readonly shelter: Shelter;
  readonly body: unknown;
  readonly from: string;
}

/**
 * Tells the log of everything that is asked about signing in and devices, and of whatever is refused for want of rights: what was
 * asked, how it ended, whose id, which device, from which address, so that guessing is seen. Never a name, because people type
 * passwords into the wrong field, and nothing else that was typed (OWASP ASVS 5.0.0, V16.2.5, V16.3.1 and V16.3.2).
 */
export function tellLog(log: FastifyBaseLogger, name: RouteName, asking: Asking, answered: unknown): void {
  const refused = isRefusal(answered) ? answered.refused : null;
  const isSigning = Object.hasOwn(signInRoutes, name) && name !== 'signedIn';
  const isAbout = isSigning || name === 'setUp' || refused === 'role-not-allowed' || refused === 'person-not-active';
  if (!isAbout) return;
  const { who, from, shelter, body } = asking;
  const line = {
    signIn: name,
    outcome: refused ?? 'ok',
    person: who.person?.id ?? onRecord(shelter, answered) ?? onRecord(shelter, body),
    device: who.session?.device ?? who.device?.id ?? null,
    from,
  };
  if (refused === null) log.info(line);
  else log.warn(line);
}

/** Whom an answer or a question is about, where that is somebody of the shelter: any other text is told to nobody. */
function onRecord({ people }: Shelter, told: unknown): string | null {
  const named = typeof told === 'object' && told !== null && 'person' in told ? told.person : null;
  return people.find(({ id }) => id === named)?.id ?? null;
}
