import type { NetworkInterfaceInfo } from 'node:os';
import { describe, expect, it } from 'vitest';
import { isAnnounced, reachedBy } from './reached.js';

const four = (address: string, internal = false): NetworkInterfaceInfo => ({
  address,
  internal,
  family: 'IPv4',
  netmask: '255.255.255.0',
  mac: '00:00:00:00:00:00',
  cidr: null,
});
const interfaces = {
  lo: [four('127.0.0.1', true)],
  wifi: [four('192.168.1.20'), four('169.254.3.4')],
  cable: [four('10.1.2.3'), four('192.168.1.20')],
};

describe('what a server is reached by', () => {
  it('is the usual name and every address that leads out', () => {
    expect(reachedBy(null, interfaces)).toEqual({
      ok: true,
      value: { name: 'roundhand.local', addresses: ['10.1.2.3', '192.168.1.20'] },
    });
  });

  it('is a name of its own, or an address alone', () => {
    expect(reachedBy('Rounds.Shelter.Example', {})).toEqual({
      ok: true,
      value: { name: 'rounds.shelter.example', addresses: [] },
    });
    expect(reachedBy('192.168.1.20', interfaces)).toEqual({
      ok: true,
      value: { name: null, addresses: ['192.168.1.20'] },
    });
  });

  it.each(['cats', '-cats.local', 'cats_.local', 'cats..local', '*.local', 'cats.local/x', '', 'a b.local', '::1'])(
    'is not “%s”',
    (name) => {
      expect(reachedBy(name, interfaces)).toMatchObject({ ok: false, why: { say: 'lan.name-malformed' } });
    },
  );

  it('is told on the network where the name is one of the network', () => {
    expect([isAnnounced('roundhand.local'), isAnnounced('rounds.shelter.example')]).toEqual([true, false]);
  });
});
