import type { Fetch } from '../../src/api/client.js';
import { DeviceId, PersonId } from '../../src/core/ids.js';
import type { LocalStore } from '../../src/device/store/store.js';
import { tokenHash } from '../../src/server/sign-in/secrets.js';
import type { SignIns } from '../../src/store/private/sign-ins.js';

/** The device under which testLog writes records down. */
export const usualDevice = 'phone-a';
const always = '1970-01-01T00:00:00.000Z';

/** Lets somebody have been signed in on a device from the first day on, as what is told of earlier days supposes. */
export function wasSignedIn(signIns: SignIns, person: string, device = usualDevice): void {
  const stay = { device: DeviceId.parse(device), person: PersonId.parse(person) };
  if (signIns.signInsOf(stay.device, stay.person).length === 0)
    signIns.putSignIn({ ...stay, since: always, until: null });
}

/**
 * The cookie of somebody who has signed in just now, by a password, on a device. Proving who one is takes most of a second
 * and has tests of its own: here the session is put where the server puts it, and all that it asks of one is asked.
 */
export function cookieOf(signIns: SignIns, person: string, now: string, device = usualDevice): string {
  const token = `session of ${person} on ${device}`.replaceAll(' ', '-');
  wasSignedIn(signIns, person, device);
  const who = { person: PersonId.parse(person), device: DeviceId.parse(device) };
  signIns.putSession({ id: tokenHash(token), ...who, since: now, seenAt: now, freshAt: now });
  return `roundhand-session=${token}`;
}

/** A line over which every request is of this person on this device. */
export const signedInOver =
  (line: Fetch, signIns: SignIns, person: () => string | null, now: () => string, device = () => usualDevice): Fetch =>
  (url, init) => {
    const who = person();
    const cookie = who === null ? {} : { cookie: cookieOf(signIns, who, now(), device()) };
    return line(url, { ...init, headers: { ...init.headers, ...cookie } });
  };

/** The line of a device: whoever holds it has signed in on it. */
export const signedInOn = (signIns: SignIns, store: LocalStore, line: Fetch, now: () => string): Fetch =>
  signedInOver(
    line,
    signIns,
    () => store.who.get().person,
    now,
    () => store.status.get().device ?? '',
  );
