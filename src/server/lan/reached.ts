import { isIP } from 'node:net';
import { type NetworkInterfaceInfo, networkInterfaces } from 'node:os';
import { no, type Outcome, ok } from '../../core/said.js';
import type { Reached } from './authority.js';

/** The name that is announced on the network when no other is given (.local: RFC 6762). */
const usualName = 'roundhand.local';

/** A host name: labels of letters, figures and hyphens (RFC 1123, 2.1), more than one of them. */
const hostName = /^(?=.{3,253}$)([a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)+$/;

type Interfaces = NodeJS.Dict<NetworkInterfaceInfo[]>;

/**
 * What this computer is reached by on its network. `asked`: the name that was given; an address there means that there is no
 * name. The addresses are those of IPv4 that lead out of this computer.
 */
export function reachedBy(asked: string | null, interfaces: Interfaces = networkInterfaces()): Outcome<Reached> {
  const name = (asked ?? usualName).toLowerCase();
  if (isIP(name) === 4) return ok({ name: null, addresses: [name] });
  if (!hostName.test(name)) return no('lan.name-malformed', { name: asked ?? '' });
  const addresses = Object.values(interfaces)
    .flatMap((one) => one ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal && !one.address.startsWith('169.254.'))
    .map((one) => one.address);
  return ok({ name, addresses: [...new Set(addresses)].sort() });
}

/** Whether a name is one that computers tell each other on the network itself. */
export const isAnnounced = (name: string): boolean => name.endsWith('.local');
