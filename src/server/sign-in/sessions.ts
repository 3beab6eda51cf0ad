import type { DeviceId, PersonId } from '../../core/ids.js';
import type { KnownDevice } from '../../store/private/sign-ins.js';
import type { Asked, Context } from '../context.js';
import { type Refusal, refuse } from '../refusal.js';
import { deviceCookie } from './cookies.js';
import { newToken, tokenHash } from './secrets.js';

type Asking = Pick<Asked<unknown, unknown>, 'who' | 'setCookie'>;

/**
 * The device that signs in: the one that it proves to be, or a new one under the id that it made for itself. An id that
 * another device holds the secret of is not given away, else its sign-ins were everybody's.
 */
export function deviceFor(
  { signIns, clock }: Pick<Context, 'signIns' | 'clock'>,
  { who, setCookie }: Asking,
  id: DeviceId,
  enrolled: { readonly name: string; readonly by: PersonId | null } | null = null,
): KnownDevice | Refusal {
  const there = signIns.device(id);
  if (there?.revokedAt != null || who.device?.revokedAt != null) return refuse('device-revoked');
  const proven = who.device?.id === id;
  if (there !== null && !proven && enrolled === null) return refuse('device-not-proven');
  const now = clock();
  const secret = proven ? null : newToken();
  const device: KnownDevice = {
    id,
    name: enrolled?.name ?? there?.name ?? '',
    secret: secret === null ? (there?.secret ?? '') : tokenHash(secret),
    enrolled: enrolled !== null || (there?.enrolled ?? false),
    since: there?.since ?? now,
    by: enrolled?.by ?? there?.by ?? null,
    version: there?.version ?? '',
    seenAt: now,
    revokedAt: null,
  };
  signIns.putDevice(device);
  if (secret !== null) setCookie('device', deviceCookie(id, secret));
  return device;
}

/**
 * Nobody but by the server comes back without the network who has no PIN: their stay on the device is over once they sign
 * out or another signs in there, and what is written in their name after it is nobody's word. Who has a PIN opens the device by
 * it without the server hearing of it, so their stay goes on.
 */
export function leaves(
  { signIns, clock }: Pick<Context, 'signIns' | 'clock'>,
  device: DeviceId,
  person: PersonId,
): void {
  if (signIns.secretOf(person, 'pin') === null) signIns.endSignIns({ device, person }, clock());
}

/** A new session for a person, in the place of the one that the device had; `fresh` when a password was given. */
export function openSession(
  { signIns, clock }: Pick<Context, 'signIns' | 'clock'>,
  { who, setCookie }: Asking,
  person: PersonId,
  device: DeviceId,
  fresh: boolean,
): void {
  const now = clock();
  // Never the one from before the sign-in: whoever put that there would be signed in too.
  if (who.session !== null) signIns.endSession(who.session.id);
  for (const one of signIns.signInsOn(device)) {
    if (one.until === null && one.person !== person) leaves({ signIns, clock }, device, one.person);
  }
  const token = newToken();
  signIns.putSession({ id: tokenHash(token), person, device, since: now, seenAt: now, freshAt: fresh ? now : null });
  const stays = signIns.signInsOf(device, person).some(({ until }) => until === null);
  if (!stays) signIns.putSignIn({ device, person, since: now, until: null });
  setCookie('session', token);
}
