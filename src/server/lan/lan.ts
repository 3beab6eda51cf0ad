import type { Server } from 'node:https';
import type { AddressInfo } from 'node:net';
import { type Outcome, ok, type Said, said } from '../../core/said.js';
import { openKeys } from '../../store/private/keys.js';
import { announce } from './announce.js';
import type { Reached } from './authority.js';
import { type Certificate, givenCertificate, ownCertificate } from './certificate.js';
import { isAnnounced, reachedBy } from './reached.js';
import { openTrustDoor, type TrustDoor } from './trust-door.js';

export interface LanAsked {
  /** Host name of this server, or its address where it shall have none; the usual name when null. */
  readonly name: string | null;
  /** Files of a certificate that devices know already; an authority of our own when null. */
  readonly given: { readonly certificate: string; readonly key: string } | null;
}

/** The server's part on the shelter's network, before it listens. */
export interface Lan {
  readonly reached: Reached;
  readonly certificate: Certificate;
  /** Once https listens on `host`. */
  readonly open: (server: Server, host: string) => Promise<LanOpen>;
}

/** By what the server is reached now, and what leads a phone there. */
export interface LanOpen {
  /** By https; the one to use first. */
  readonly urls: readonly [string, ...string[]];
  /** What a phone opens first, by plain http; null where there is nothing to trust. */
  readonly trust: { readonly url: string; readonly fingerprint: string } | null;
  /** What people have to know, one sentence each. */
  readonly told: readonly Said[];
  readonly close: () => Promise<void>;
}

/** Milliseconds between looks whether the certificate is still good for a while and for every address. */
const look_ms = 3_600_000;

/** Make out names, addresses and certificate. Says no with one sentence. `complain` hears what a later look finds. */
export async function prepareLan(
  asked: LanAsked,
  data: string,
  clock: () => string,
  complain: (what: Said) => void,
): Promise<Outcome<Lan>> {
  const first = reachedBy(asked.name);
  if (!first.ok) return first;
  const certificateNow = async (): Promise<Outcome<Certificate>> => {
    if (asked.given !== null) return givenCertificate(asked.given, asked.name, clock());
    const reached = reachedBy(asked.name);
    if (!reached.ok) return reached;
    const keys = openKeys(data);
    return keys.ok ? ownCertificate(keys.value, reached.value, clock()) : keys;
  };
  const made = await certificateNow();
  if (!made.ok) return made;
  const reached = first.value;
  let certificate = made.value;

  const lookAgain = async (server: Server): Promise<void> => {
    const next = await certificateNow();
    if (!next.ok) return complain(next.why);
    for (const what of next.value.told) complain(what);
    if (next.value.certificate === certificate.certificate) return;
    certificate = next.value;
    server.setSecureContext({ cert: certificate.certificate, key: certificate.key });
  };

  const open: Lan['open'] = async (server, host) => {
    const { port } = server.address() as AddressInfo;
    const urls = urlsOf(reached, port);
    const { name } = reached;
    const told = [...certificate.told];
    const announced = name !== null && isAnnounced(name) ? await announce(name, port) : null;
    if (announced?.has === false) told.push(said('lan.name-taken', { name: name ?? '' }));
    if (name === null) told.push(said('lan.by-address'));
    let door: TrustDoor | null = null;
    if (certificate.authority !== null) {
      // By address: a phone may not find the name before it knows this server.
      const at = reached.addresses[0] ?? name ?? 'localhost';
      door = await openTrustDoor(() => certificate.authority, urls, { at, host, port: port + 1 });
    }
    const timer = setInterval(() => {
      lookAgain(server).catch(() => undefined);
    }, look_ms);
    timer.unref();
    return {
      urls,
      trust: door === null ? null : { url: door.url, fingerprint: certificate.authority?.fingerprint ?? '' },
      told,
      close: async () => {
        clearInterval(timer);
        await announced?.close();
        await door?.close();
      },
    };
  };
  return ok({ reached, certificate, open });
}

function urlsOf({ name, addresses }: Reached, port: number): readonly [string, ...string[]] {
  const [first = 'localhost', ...more] = [...(name === null ? [] : [name]), ...addresses];
  return [`https://${first}:${port}`, ...more.map((one) => `https://${one}:${port}`)];
}
