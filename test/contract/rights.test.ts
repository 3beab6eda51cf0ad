import { beforeEach, describe, expect, it } from 'vitest';
import { headers, type Route } from '../../src/api/route.js';
import { type RouteName, routes } from '../../src/api/routes.js';
import type { Kind } from '../../src/log/kinds/index.js';
import { PrivatePerson } from '../../src/log/private-side.js';
import { type Draft, draft, type LogRecord } from '../../src/log/record.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { memoryPrivateSide } from '../../src/store/private/memory.js';
import { noon, server, value } from '../support/app.js';
import { at } from '../support/log.js';
import { everyKind, oneOf } from '../support/one-of-each.js';
import { shelterLog, shelterPeople } from '../support/shelter-log.js';
import { cookieOf, wasSignedIn } from '../support/signed-in.js';

/**
 * Who may do what, written out once more and held against what the server does. The letters: V volunteer, C caregiver,
 * S supervisor, M medical team without a licence, D veterinarian (with one), F foster home; A is the duty of an
 * administrator, tried on somebody who is a foster home besides.
 */
const people = { V: 'ines', C: 'cara', S: 'sol', M: 'tom', D: 'vera', F: 'finn', A: 'adam' } as const;
type Letter = keyof typeof people;
const letters = Object.keys(people) as Letter[];

/** How far the word of each goes about animals (LOG-R218). */
const further: Readonly<Record<Letter, number>> = { F: 0, A: 0, V: 1, C: 1, S: 2, M: 3, D: 4 };

/** By kind; an administrator may as such write nothing, so what adam may is what finn may. */
const kinds: Readonly<Record<Kind, string>> = {
  'shelter-described': 'SMD',
  'section-described': 'SMD',
  'person-described': 'SMD',
  'protocol-filed': 'MD',
  'formulary-filed': 'MD',
  'document-signed': 'D',
  'document-retired': 'MD',
  'animal-taken-in': 'SMD',
  'animal-described': 'VSMD',
  'animal-moved': 'VSMD',
  'sign-set': 'VSMD',
  'animal-left': 'SMD',
  'animal-weighed': 'VCSMDFA',
  'observation-noted': 'VCSMDFA',
  'hold-placed': 'SMD',
  'hold-lifted': 'SMD',
  'animal-identified': 'VSMD',
  'gate-opened': 'VSMD',
  'treatment-given': 'VSMD',
  'treatment-not-given': 'VSMD',
  'sample-drawn': 'VSMD',
  'test-started': 'VSMD',
  'test-read': 'VSMD',
  'test-abandoned': 'VSMD',
  'test-followed-up': 'SMD',
  'chip-scanned': 'VCSMDFA',
  'chip-implanted': 'VSMD',
  'chip-discarded': 'VSMD',
  'round-planned': 'VSMD',
  'round-begun': 'VSMD',
  'team-changed': 'VSMD',
  'section-entered': 'VSMD',
  'section-left': 'VSMD',
  'gloves-changed': 'VSMD',
  'handed-back': 'VSMD',
  'hand-back-accepted': 'SMD',
  'lot-received': 'SMD',
  'syringes-prepared': 'SMD',
  'lot-counted': 'VSMD',
  'lot-withdrawn': 'SMD',
  'kits-out-of-cold': 'VSMD',
  'flag-taken': 'SMD',
  'flag-answered': 'SMD',
  'order-written': 'D',
  'order-countersigned': 'D',
  'order-ended': 'MD',
  'variant-switched': 'D',
  'record-withdrawn': 'VSMD',
  'file-imported': 'SMD',
  'records-sent-again': 'VCSMDFA',
};

interface Asking {
  /** E stands for a stranger on an enrolled device, X for one on any. */
  readonly by: string;
  readonly query?: string;
  readonly body?: unknown;
  readonly id?: string;
}
const nobody = { person: 'nobody' };
const picture = 'a'.repeat(64);
const all = 'VCSMDFA';
const anyone = `${all}EX`;

/** By route, with something to ask that changes nothing. */
const asked: Readonly<Record<RouteName, Asking>> = {
  health: { by: anyone },
  shelter: { by: anyone },
  setUp: { by: anyone, body: {} },
  setUpDemo: { by: anyone, body: {} },
  people: { by: `${all}E` },
  peopleInFull: { by: 'SMD' },
  changePeople: { by: 'SMD', body: { changes: [{ id: 'nobody' }] } },
  erasePeople: { by: 'SMD', body: { ids: ['nobody'] } },
  signIn: { by: anyone, body: {} },
  signInDemo: { by: anyone, body: { person: 'nobody', device: 'none' } },
  signedIn: { by: all },
  signInByCode: { by: anyone, body: { code: 'none', kind: 'password', secret: 'x', device: 'none' } },
  firstAdministrator: { by: anyone, body: { code: 'none', name: 'x', secret: 'x', device: 'none' } },
  confirm: { by: all, body: { secret: 'x' } },
  newSecret: { by: all, body: { old: 'x', kind: 'password', secret: 'x' } },
  signOut: { by: anyone },
  giveCode: { by: 'SMDA', body: nobody },
  endSignIns: { by: 'A', body: nobody },
  giveDuty: { by: 'A', body: { ...nobody, administers: true } },
  setHome: { by: 'SMD', body: { ...nobody, animals: [] } },
  devices: { by: 'SMDA' },
  deviceCode: { by: 'SMDA', body: { name: 'x' } },
  enrol: { by: anyone, body: { code: 'none', device: 'none' } },
  nameDevice: { by: 'SMDA', body: { device: 'none', name: 'x' } },
  revokeDevice: { by: 'SMDA', body: { device: 'none' } },
  apart: { by: 'SMDA' },
  judgeApart: { by: 'SMDA', body: { ids: ['none'], take: true } },
  append: { by: all, body: { records: [] } },
  records: { by: 'VCSMDA' },
  animalRecords: { by: all, query: '?animal=kit-1' },
  chips: { by: 'VCSMDA' },
  lots: { by: 'VCSMDA' },
  events: { by: all },
  due: { by: 'VCSMDA' },
  animals: { by: 'VCSMDA' },
  flags: { by: 'VCSMDA' },
  takePhoto: { by: 'VCSMDA', body: 'x' },
  keepPicture: { by: 'VCSMDA', id: picture, body: 'x' },
  picture: { by: 'VCSMDA', id: picture },
  verify: { by: 'SMDA' },
  signedHead: { by: 'VCSMDA' },
  backup: { by: 'SMD' },
};

const log = shelterLog(2);
const name = (id: string, licence = '') =>
  PrivatePerson.parse({ id, name: id, licence, contacts: [], withdrawn: false });
let around: Awaited<ReturnType<typeof server>>;

const described = (person: string, role: string): Draft =>
  draft('person-described', `person:${person}`, { person, role } as never, at('2026-03-01', '08:30'));
log.add([described('cara', 'caregiver'), described('tom', 'medical')], 'sol');
log.add([described('finn', 'foster'), described('adam', 'foster')], 'sol');
// The version that is signed.
log.add([oneOf('protocol-filed')], 'vera');

beforeEach(async () => {
  const store = memoryStore();
  await store.append(log.records, noon);
  // What is tried is judged and not kept, so that nothing tried has a say in what is tried next.
  const keepsNothing = {
    ...store,
    append: async (batch: readonly LogRecord[]) =>
      batch.map(({ id }) => ({ id, outcome: 'stored' as const, seq: 1 as number | null })),
  };
  const private_ = memoryPrivateSide([...shelterPeople, name('cara'), name('tom'), name('finn'), name('adam')]);
  around = await server({ store: keepsNothing as never, people: private_ });
  const { signIns } = around;
  signIns.setAdministers('adam' as never, true);
  for (const person of ['finn', 'adam']) signIns.setHome(person as never, ['kit-1'] as never);
  for (const person of Object.values(people)) wasSignedIn(signIns, person);
});

const byHand = (kind: Kind, person: string, device = 'phone-a'): LogRecord[] =>
  shelterLogOf(() => log.add([oneOf(kind)], person, device, noon));
/** A record that is tried is no part of the log that it is tried on. */
function shelterLogOf(make: () => LogRecord[]): LogRecord[] {
  const made = make();
  log.records.splice(log.records.length - made.length, made.length);
  return made;
}

const isRight = (problem: { said: { say: string } } | null | undefined): boolean =>
  problem?.said.say !== 'server.problem.record-not-allowed';

/** Turned away before anybody asks whose hand it is by: it fits nothing in this log. */
const isOtherwise = (problem: { code: string } | null | undefined): boolean =>
  problem != null && !problem.code.startsWith('record-kept') && !problem.code.startsWith('record-hand');

describe('the table of rights (Verifies: LOG-R200, LOG-R201)', () => {
  it('has each kind and each route, and no other', () => {
    expect(Object.keys(kinds).sort()).toEqual([...everyKind].sort());
    expect(Object.keys(asked).sort()).toEqual(Object.keys(routes).sort());
  });

  it.each(letters)('lets %s write live what the table says, of every kind', async (letter) => {
    const person = people[letter];
    const client = around.as(person);
    for (const kind of everyKind) {
      const { outcomes } = value(await client.append({ records: byHand(kind, person) }));
      const [outcome] = outcomes;
      expect([kind, isRight(outcome?.problem)]).toEqual([kind, kinds[kind].includes(letter)]);
    }
  });

  it.each(
    letters.flatMap((letter) => [
      { letter, from: 'this device', device: 'phone-a' },
      { letter, from: 'another one, which is sent again', device: 'phone-b' },
    ]),
  )('lets $letter bring in what all wrote on $from without the network, and no more than both may', async (one) => {
    const { letter, device } = one;
    const client = around.as(people[letter]);
    for (const other of letters) {
      wasSignedIn(around.signIns, people[other], device);
      const records = everyKind.flatMap((kind) => byHand(kind, people[other], device));
      const { outcomes } = value(await client.append({ records }));
      const got = everyKind.filter((_, index) => {
        const problem = outcomes[index]?.problem;
        return isRight(problem) && problem?.code !== 'record-hand-away' && problem?.code !== 'record-kept-apart';
      });
      const own = letter === other;
      const may = everyKind.filter((kind) => {
        // It takes back what is not here, and is turned away for that before its hand is asked.
        if (kind === 'record-withdrawn') return got.includes(kind);
        if (!kinds[kind].includes(other)) return false;
        // By the hand of a veterinarian who is signed in, or not at all.
        if (kinds[kind] === 'D') return own;
        // A device that was shared out brings what a volunteer did on it, whoever has it by now.
        if (own || (device === 'phone-a' && kinds[kind].includes('V'))) return true;
        // Beyond that nobody speaks for somebody whose word goes further.
        return kinds[kind].includes(letter) && further[other] <= further[letter];
      });
      // What cannot be judged for another reason (a signature that fits no document) is no matter of rights.
      expect([other, got]).toEqual([other, may]);
    }
  });

  it.each(letters)(
    'takes nothing from %s in a name that had not signed in on the device it is said to be of',
    async (letter) => {
      const client = around.as(people[letter]);
      for (const other of letters) {
        const records = everyKind.flatMap((kind) => byHand(kind, people[other], 'phone-c'));
        const { outcomes } = value(await client.append({ records }));
        const taken = everyKind.filter((kind, index) => {
          const problem = outcomes[index]?.problem;
          return kinds[kind].includes(other) && problem?.code !== 'record-kept-apart' && !isOtherwise(problem);
        });
        expect([other, taken]).toEqual([other, []]);
      }
    },
  );

  it.each(Object.keys(asked) as RouteName[])('opens %s to those it says', async (name) => {
    const route: Route = routes[name];
    const { query = '', body, id = '', by } = asked[name];
    const base = await around.app.listen({ port: 0, host: '127.0.0.1' });
    const device = enrolledDevice();
    const whose = { ...people, E: null, X: null };
    for (const [letter, person] of Object.entries(whose)) {
      const cookie = person === null ? (letter === 'E' ? device : '') : cookieOf(around.signIns, person, noon);
      const stop = new AbortController();
      const answer = await fetch(`${base}${route.path.replace('{id}', id)}${query}`, {
        method: route.method,
        headers: {
          [headers.now]: noon,
          ...(cookie === '' ? {} : { cookie }),
          ...(body === undefined ? {} : { 'content-type': route.bytes ? 'image/jpeg' : 'application/json' }),
        },
        ...(body === undefined ? {} : { body: route.bytes ? 'x' : JSON.stringify(body) }),
        signal: stop.signal,
      });
      const isStream = (answer.headers.get('content-type') ?? '').startsWith('text/event-stream');
      const said =
        isStream || !(answer.headers.get('content-type') ?? '').includes('problem') ? null : await answer.json();
      stop.abort();
      const code = (said as { code?: string } | null)?.code ?? '';
      const shut = code === 'role-not-allowed' || code === 'person-missing';
      expect([name, letter, shut]).toEqual([name, letter, !by.includes(letter)]);
    }
  });
});

function enrolledDevice(): string {
  const secret = 'enrolled';
  around.signIns.putDevice({
    id: 'tablet-1' as never,
    name: 'Tablet',
    // SHA-256 of `enrolled`, worked out by another program.
    secret: 'b01b74b746a17d300da7b5fce94ad51e22213254d7d449f8fffb695711cd98ff',
    enrolled: true,
    since: noon,
    by: null,
    version: '',
    seenAt: noon,
    revokedAt: null,
  });
  return `roundhand-device=tablet-1.${secret}`;
}
