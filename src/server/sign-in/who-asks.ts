import type { FastifyRequest } from 'fastify';
import { headers } from '../../api/route.js';
import type { Names } from '../../core/people.js';
import type { MayAsk } from '../../core/rights/rights.js';
import { isAny, type Standing, standingsOf } from '../../core/rights/standing.js';
import type { Person, Shelter } from '../../log/views/shelter.js';
import { rolesInWords } from '../../log/who-may.js';
import type { KnownDevice, Session, SignIns } from '../../store/private/sign-ins.js';
import { type Refusal, refuse } from '../refusal.js';
import { readCookie, readDeviceCookie } from './cookies.js';
import { signInLimits } from './limits.js';
import { sameHash, tokenHash } from './secrets.js';

/** Who a request comes from, by what it proves. */
export interface WhoAsks {
  /** Signed in here and now; null for a stranger. */
  readonly person: Person | null;
  /** All that this person is. */
  readonly has: readonly Standing[];
  readonly session: Session | null;
  /** The device that proves by its secret which one it is. */
  readonly device: KnownDevice | null;
  /** Whether a password was given just now. */
  readonly fresh: boolean;
}

/** That somebody was seen is a note: where it cannot be kept (a full disk), what was asked for is answered all the same. */
function note(work: () => void): void {
  try {
    work();
  } catch {
    // Noted the next time.
  }
}

/** Seen again is written down at most so often. */
const noted_ms = 5 * 60_000;

export function whoAsks(
  request: FastifyRequest,
  { signIns, shelter, signers, now }: { signIns: SignIns; shelter: Shelter; signers: Names; now: string },
): WhoAsks {
  const device = provenDevice(request, signIns, now);
  const session = openSession(request, signIns, now);
  const person = shelter.people.find(({ id }) => id === session?.person) ?? null;
  if (session === null || person === null) return { person: null, has: [], session: null, device, fresh: false };
  const ago = session.freshAt === null ? Number.POSITIVE_INFINITY : Date.parse(now) - Date.parse(session.freshAt);
  return {
    person,
    has: standingsOf(person.role, signers.get(person.id)?.licence ?? '', signIns.administers(person.id)),
    session,
    device,
    fresh: ago < signInLimits.fresh_ms,
  };
}

function provenDevice(request: FastifyRequest, signIns: SignIns, now: string): KnownDevice | null {
  const shown = readDeviceCookie(readCookie(request, 'device'));
  if (shown === null) return null;
  const device = signIns.device(shown.id);
  if (device === null || !sameHash(device.secret, tokenHash(shown.secret))) return null;
  const told = request.headers[headers.version];
  const version = typeof told === 'string' ? told.slice(0, 40) : device.version;
  const ago = Date.parse(now) - Date.parse(device.seenAt);
  if (version !== device.version || Math.abs(ago) > noted_ms)
    note(() => signIns.putDevice({ ...device, version, seenAt: now }));
  return device;
}

/** The session of the cookie, while it holds; the server alone says so. */
function openSession(request: FastifyRequest, signIns: SignIns, now: string): Session | null {
  const token = readCookie(request, 'session');
  const session = token === null ? null : signIns.session(tokenHash(token));
  if (session === null) return null;
  const at = Date.parse(now);
  const idle = at - Date.parse(session.seenAt);
  if (idle > signInLimits.idle_ms || at - Date.parse(session.since) > signInLimits.absolute_ms) {
    signIns.endSession(session.id);
    return null;
  }
  if (idle > noted_ms) note(() => signIns.putSession({ ...session, seenAt: now }));
  return session;
}

/** Why this may not be asked; null when it may. The table says it (core/rights/rights.ts). */
export function mayNotAsk(shelter: Shelter, may: MayAsk, who: WhoAsks): Refusal | null {
  if (may === 'anyone') return null;
  if (shelter.id === null) return refuse('no-shelter-yet');
  const { person, has, device } = who;
  if (may === 'enrolled' && person === null) {
    return shelter.demo || (device?.enrolled === true && device.revokedAt === null) ? null : refuse('person-missing');
  }
  if (person === null) return refuse('person-missing');
  if (!person.active) return refuse('person-not-active', { name: { person: person.id } });
  if (may === 'enrolled' || isAny(may, has)) return null;
  return refuse('role-not-allowed', { name: { person: person.id }, roles: rolesInWords(may) });
}
