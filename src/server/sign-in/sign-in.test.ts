import { describe, expect, it } from 'vitest';
import { server, shelter } from '../../../test/support/app.js';
import { at } from '../../../test/support/log.js';
import { shelterLog, shelterPeople, weighed } from '../../../test/support/shelter-log.js';
import { wasSignedIn } from '../../../test/support/signed-in.js';
import { createClient } from '../../api/client.js';
import { signInRoutes } from '../../api/routes-sign-in.js';
import { DeviceId, PersonId } from '../../core/ids.js';
import { describePerson } from '../../log/commands/shelter.js';
import { type Draft, draft } from '../../log/record.js';
import { memoryStore } from '../../store/memory/store.js';
import { memoryPrivateSide } from '../../store/private/memory.js';
import { hashSecret } from './secrets.js';

const noon = at('2026-03-02', '12:00');
const minute_ms = 60_000;
const secret = 'seven quiet kittens';
const id = (text: string): PersonId => PersonId.parse(text);

type Around = Awaited<ReturnType<typeof server>>;

/** A browser: keeps the cookies that it is given, sends them back, and knows its own device. */
function browser({ app, time }: Around, device = 'own-device', version = '1.0') {
  const jar = new Map<string, string>();
  const set: string[] = [];
  const client = createClient(
    async (url, { method, headers, body }) => {
      const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join('; ');
      const payload = body === undefined ? {} : { payload: typeof body === 'string' ? body : Buffer.from(body) };
      const answer = await app.inject({
        method: method as 'GET',
        url,
        headers: { ...headers, ...(cookie === '' ? {} : { cookie }) },
        ...payload,
      });
      for (const line of [answer.headers['set-cookie'] ?? []].flat()) {
        set.push(line);
        const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(line) ?? [];
        if (value === '') jar.delete(name);
        else jar.set(name, value);
      }
      return { status: answer.statusCode, text: async () => answer.body };
    },
    '',
    { now: () => time.now, version },
  );
  return { client: { ...client, ...client.asks(signInRoutes) }, jar, set, device: DeviceId.parse(device) };
}

const codeOf = (answer: { ok: boolean; code?: string }): string => (answer.ok ? 'ok' : (answer.code ?? ''));
const pass = (around: Around, ms: number): void => {
  around.time.now = new Date(Date.parse(around.time.now) + ms).toISOString();
};

/** A cheap one, because a test signs in often; what is kept says itself what it costs. */
const hash = hashSecret(secret, { m: 64, t: 1, p: 1 });
async function withPassword(person: string): Promise<Around & { log: ReturnType<typeof shelterLog> }> {
  const around = await shelter();
  around.signIns.setSecret(id(person), 'password', await hash);
  return around;
}

describe('signing in by a password', () => {
  it('gives a session in a cookie that no script sees, a new one each time (Verifies: LOG-R202, LOG-R208)', async () => {
    const around = await withPassword('sol');
    const { client, jar, set, device } = browser(around);
    expect(codeOf(await client.records())).toBe('person-missing');
    const asked = { name: ' SOL ', kind: 'password', secret, device } as const;
    expect(await client.signIn(asked)).toMatchObject({ ok: true, value: { person: 'sol', has: ['password'] } });
    for (const line of set) expect(line).toMatch(/; Path=\/; Max-Age=\d+; HttpOnly; SameSite=Strict$/);
    expect(codeOf(await client.records())).toBe('ok');
    const first = jar.get('roundhand-session') ?? '';
    expect(Buffer.from(first, 'base64url')).toHaveLength(32);
    expect(codeOf(await client.signIn(asked))).toBe('ok');
    expect(jar.get('roundhand-session')).not.toBe(first);
    jar.set('roundhand-session', first);
    expect(codeOf(await client.records())).toBe('person-missing');
  });

  it('does not go by a header (Verifies: LOG-R202)', async () => {
    const { app } = await shelter();
    const answer = await app.inject({ url: '/api/records', headers: { 'x-roundhand-person': 'sol' } });
    expect(answer.json()).toMatchObject({ code: 'person-missing', status: 401 });
  });

  it('is over when it is ended, left alone for a day, or two weeks old (Verifies: LOG-R208)', async () => {
    const around = await withPassword('sol');
    const one = browser(around);
    const enter = () => one.client.signIn({ person: id('sol'), kind: 'password', secret, device: one.device });
    await enter();
    const kept = one.jar.get('roundhand-session') ?? '';
    await one.client.signOut();
    expect(one.jar.has('roundhand-session')).toBe(false);
    one.jar.set('roundhand-session', kept);
    expect(codeOf(await one.client.records())).toBe('person-missing');
    await enter();
    pass(around, 23 * 60 * minute_ms);
    expect(codeOf(await one.client.records())).toBe('ok');
    pass(around, 25 * 60 * minute_ms);
    expect(codeOf(await one.client.records())).toBe('person-missing');
    await enter();
    for (let hours = 0; hours < 14 * 24; hours += 12) {
      expect(codeOf(await one.client.records())).toBe('ok');
      pass(around, 12 * 60 * minute_ms);
    }
    pass(around, minute_ms);
    expect(codeOf(await one.client.records())).toBe('person-missing');
  });

  it('waits after wrong tries, longer each time, and does not say whether there is somebody (Verifies: LOG-R205)', async () => {
    const around = await withPassword('sol');
    const { client, device } = browser(around);
    const tried = (name: string, typed: string) => client.signIn({ name, kind: 'password', secret: typed, device });
    const known = await tried('Sol', 'wrong');
    const unknown = await tried('Nobody At All', 'wrong');
    expect(known).toEqual(unknown);
    for (let time = 2; time <= 5; time += 1) expect(codeOf(await tried('Sol', 'wrong'))).toBe('sign-in-wrong');
    // Also the right one, until the time has passed.
    const waits = await tried('Sol', secret);
    expect(waits).toMatchObject({ code: 'sign-in-waits', problem: { detail: expect.stringContaining('30 seconds') } });
    pass(around, 31_000);
    expect(codeOf(await tried('Sol', 'wrong'))).toBe('sign-in-wrong');
    pass(around, 31_000);
    expect(codeOf(await tried('Sol', secret))).toBe('sign-in-waits');
    pass(around, 30_000);
    expect(codeOf(await tried('Sol', secret))).toBe('ok');
  });
});

it('however a name is typed, its wrong tries count together (Verifies: LOG-R205)', async () => {
  const around = await withPassword('sol');
  const { client, device } = browser(around);
  const tried = (whom: { name: string } | { person: PersonId }) =>
    client.signIn({ ...whom, kind: 'password', secret: 'wrong', device });
  for (const name of ['Sol', 'SOL', ' sol', 'sol ']) expect(codeOf(await tried({ name }))).toBe('sign-in-wrong');
  expect(codeOf(await tried({ person: id('sol') }))).toBe('sign-in-wrong');
  expect(codeOf(await tried({ name: 'sOL' }))).toBe('sign-in-waits');
  // Of nobody's name as well: a wait does not say that there is somebody.
  for (const name of ['None', 'NONE', ' none', 'none ', 'nonE']) await tried({ name });
  expect(codeOf(await tried({ name: 'noNe' }))).toBe('sign-in-waits');
});

it('the log is told of sign-ins, refused ones above all, and of nothing that was typed (Verifies: LOG-R214)', async () => {
  const lines: string[] = [];
  const around = await shelter(3, 'UTC', { logLevel: 'warn', logTo: { write: (line) => void lines.push(line) } });
  around.signIns.setSecret(id('sol'), 'password', await hash);
  const { client, device } = browser(around);
  const told = () => lines.splice(0).map((line) => JSON.parse(line) as Record<string, unknown>);
  await client.signIn({ name: 'hunter2 in the wrong field', kind: 'password', secret: 'wr0ng-and-secret', device });
  await client.signIn({ person: id('sol'), kind: 'password', secret: 'wr0ng-and-secret', device });
  await client.signInByCode({ code: 'SECRETCODE', kind: 'password', secret: 'wr0ng-and-secret', device });
  await around.as('ines').devices();
  const text = lines.join('');
  expect(told()).toMatchObject([
    { level: 'warn', time: noon, signIn: 'signIn', outcome: 'sign-in-wrong', person: null, from: '127.0.0.1' },
    { signIn: 'signIn', outcome: 'sign-in-wrong', person: 'sol' },
    { signIn: 'signInByCode', outcome: 'code-wrong', person: null },
    { signIn: 'devices', outcome: 'role-not-allowed', person: 'ines', device: 'phone-a' },
  ]);
  expect(text).not.toMatch(/hunter2|wr0ng|SECRETCODE|Sol|roundhand-session/);
  // What went well is told to whoever asks for more.
  await client.signIn({ person: id('sol'), kind: 'password', secret, device });
  expect(told()).toEqual([]);
});

describe('the first administrator (Verifies: LOG-R206)', () => {
  it('is whoever types the code that was printed, once', async () => {
    const around = await shelter();
    const [code = ''] = around.codes;
    expect(code).toMatch(/^[A-HJ-NP-Z2-9]{10}$/);
    const { client, device } = browser(around);
    const asked = { code, name: 'Sol', person: id('sol'), secret, device };
    expect(await client.shelter()).toMatchObject({ value: { state: 'closed', first: true } });
    expect(codeOf(await client.firstAdministrator({ ...asked, code: 'AAAAAAAAAA' }))).toBe('code-wrong');
    expect(codeOf(await client.firstAdministrator({ ...asked, person: id('ines') }))).toBe('setup-needs-supervisor');
    const typed = ` ${code.slice(0, 5).toLowerCase()}-${code.slice(5)}`;
    expect(await client.firstAdministrator({ ...asked, code: typed })).toMatchObject({
      ok: true,
      value: { person: 'sol', administers: true },
    });
    expect(await browser(around, 'other').client.shelter()).toMatchObject({ value: { state: 'closed', first: false } });
    expect(codeOf(await browser(around, 'third').client.firstAdministrator(asked))).toBe('code-wrong');
    expect(codeOf(await client.giveDuty({ person: id('sol'), administers: false }))).toBe('last-administrator');
  });

  it('is somebody new where the names were lost, and stands on record', async () => {
    const store = memoryStore();
    await store.append(shelterLog().records, noon);
    const people = memoryPrivateSide();
    const around = await server({ store, people });
    const { client, device } = browser(around);
    const answer = await client.firstAdministrator({ code: around.codes[0] ?? '', name: 'Wren', secret, device });
    if (!answer.ok) throw new Error(answer.code);
    expect((await store.read()).at(-1)).toMatchObject({ kind: 'person-described', by: answer.value.person });
    expect(await people.people()).toMatchObject([{ id: answer.value.person, name: 'Wren' }]);
  });

  it('signs in to the invented shelter with one tap, and to no other', async () => {
    const real = await shelter();
    const tap = (around: Around) =>
      browser(around).client.signInDemo({ person: id('sol'), device: DeviceId.parse('own-device') });
    expect(codeOf(await tap(real))).toBe('sign-in-wrong');
    const records = shelterLog().records.map((one) =>
      one.kind === 'shelter-described' ? { ...one, body: { ...one.body, demo: true } } : one,
    );
    const store = memoryStore();
    await store.append(records, noon);
    const invented = await server({ store, people: memoryPrivateSide(shelterPeople) });
    expect(invented.codes).toEqual([]);
    expect(codeOf(await tap(invented))).toBe('ok');
  });

  it('cannot be had by making a real shelter the invented one', async () => {
    const { as, log } = await shelter();
    const body = { name: 'Test nursery', zone: 'UTC', weightUnit: 'g', demo: true } as const;
    const records = log.add([draft('shelter-described', 'shelter:self', body, noon)], 'sol');
    expect(await as('sol').append({ records })).toMatchObject({
      value: { outcomes: [{ problem: { code: 'record-not-allowed', said: { say: 'log.demo-stays' } } }] },
    });
  });
});

describe('codes, passwords and PINs', () => {
  it('a code sets the first one, once and for a day; of the desk an administrator makes it (Verifies: LOG-R207, LOG-R203)', async () => {
    const around = await withPassword('sol');
    const { as, log, signIns } = around;
    expect(codeOf(await as('sol').giveCode({ person: id('vera') }))).toBe('role-not-allowed');
    // Nor by making her a volunteer for a moment.
    const role = (one: 'medical' | 'volunteer') =>
      as('sol').append({ records: log.add(describePerson({ person: id('vera'), role: one }, noon), 'sol') });
    await role('volunteer');
    expect(codeOf(await as('sol').giveCode({ person: id('vera') }))).toBe('role-not-allowed');
    await role('medical');
    signIns.setAdministers(id('sol'), true);
    const given = await as('sol').giveCode({ person: id('vera') });
    if (!given.ok) throw new Error(given.code);
    const { client, device } = browser(around);
    const use = (typed: string, kind: 'password' | 'pin' = 'password') =>
      client.signInByCode({ code: given.value.code, kind, secret: typed, device });
    for (const weak of ['short', 'Password1234', 'aaaaaaaaaaaa', 'Vera20262026', '12345678'])
      expect([weak, codeOf(await use(weak))]).toEqual([weak, 'secret-weak']);
    expect(codeOf(await use(secret))).toBe('ok');
    expect(signIns.secretOf(id('vera'), 'password')).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect(codeOf(await use(secret))).toBe('code-wrong');
    const late = await as('sol').giveCode({ person: id('ines') });
    pass(around, 25 * 60 * minute_ms);
    const code = late.ok ? late.value.code : '';
    expect(codeOf(await client.signInByCode({ code, kind: 'password', secret, device }))).toBe('code-wrong');
  });

  it('a PIN is taken on an enrolled device only, and never of the desk (Verifies: LOG-R204, LOG-R209)', async () => {
    const around = await shelter();
    const { as } = around;
    const [code, own, desk] = [
      await as('sol').deviceCode({ name: 'Phone 1' }),
      await as('sol').giveCode({ person: id('ines') }),
      await as('sol').giveCode({ person: id('ines') }),
    ].map((answer) => (answer.ok ? answer.value.code : ''));
    const phone = browser(around, 'phone-7', '9.1');
    const pin = { kind: 'pin', secret: '402917', device: phone.device } as const;
    expect(codeOf(await phone.client.signInByCode({ ...pin, code: own ?? '' }))).toBe('device-not-enrolled');
    expect(codeOf(await phone.client.people({}))).toBe('person-missing');
    expect(await phone.client.enrol({ code: code ?? '', device: phone.device })).toMatchObject({
      value: { name: 'Phone 1' },
    });
    expect(codeOf(await phone.client.people({}))).toBe('ok');
    for (const weak of ['123456', '111111', '98765', 'secret'])
      expect([weak, codeOf(await phone.client.signInByCode({ ...pin, secret: weak, code: own ?? '' }))]).toEqual([
        weak,
        'secret-weak',
      ]);
    expect(codeOf(await phone.client.signInByCode({ ...pin, code: own ?? '' }))).toBe('ok');
    // Elsewhere the same PIN is worth nothing, and nobody else gets to be this device.
    const laptop = browser(around, 'phone-7');
    expect(codeOf(await laptop.client.signIn({ ...pin, person: id('ines') }))).toBe('device-not-enrolled');
    around.signIns.setSecret(id('sol'), 'password', await hash);
    const asSol = { person: id('sol'), kind: 'password', secret } as const;
    expect(codeOf(await laptop.client.signIn({ ...asSol, device: laptop.device }))).toBe('device-not-proven');
    expect(codeOf(await laptop.client.enrol({ code: code ?? '', device: laptop.device }))).toBe('code-wrong');
    around.signIns.setAdministers(id('sol'), true);
    const forDesk = await as('sol').giveCode({ person: id('sol') });
    const atDesk = { ...pin, code: forDesk.ok ? forDesk.value.code : '' };
    expect(await phone.client.signInByCode(atDesk)).toMatchObject({
      code: 'secret-weak',
      problem: { said: { say: 'people.pin.not-for-desk' } },
    });
    expect(desk).not.toBe(own);
    const listed = await as('sol').devices();
    expect(listed).toMatchObject({
      value: { devices: [{ id: 'phone-7', name: 'Phone 1', enrolled: true, version: '9.1', people: ['ines'] }] },
    });
  });

  it('a new one ends the other sessions, and so does whoever looks after sign-ins (Verifies: LOG-R208)', async () => {
    const around = await withPassword('sol');
    const [one, two] = [browser(around, 'one'), browser(around, 'two')];
    for (const { client, device } of [one, two])
      await client.signIn({ person: id('sol'), kind: 'password', secret, device });
    const next = 'eight quiet kittens';
    expect(codeOf(await one.client.newSecret({ old: 'wrong', kind: 'password', secret: next }))).toBe('sign-in-wrong');
    expect(codeOf(await one.client.newSecret({ old: secret, kind: 'password', secret: next }))).toBe('ok');
    expect([codeOf(await one.client.records()), codeOf(await two.client.records())]).toEqual(['ok', 'person-missing']);
    around.signIns.setAdministers(id('vera'), true);
    await around.as('vera').endSignIns({ person: id('sol') });
    expect(codeOf(await one.client.records())).toBe('person-missing');
    expect(around.signIns.secretOf(id('sol'), 'password')).toBeNull();
  });
});

describe('whose hand a record is by', () => {
  const left: Draft = draft('animal-left', 'animal:kit-1', { how: 'adopted', on: '2026-03-02' as never }, noon);

  it('is held against who was signed in on that device at that time (Verifies: LOG-R201)', async () => {
    const { as, log, signIns, store } = await shelter();
    const before = (await store.head()).seq;
    const outcomes = async (who: string, records: unknown[]) => {
      const answer = await as(who).append({ records });
      return answer.ok ? answer.value.outcomes.map(({ outcome, problem }) => problem?.code ?? outcome) : answer.code;
    };
    // Ines was signed in on this phone; what a volunteer may comes in, whoever has the phone by now.
    expect(await outcomes('sol', log.add([weighed(1, 620, noon)], 'ines'))).toEqual(['stored']);
    expect(await outcomes('ines', log.add([weighed(1, 625, noon)], 'sol'))).toEqual(['stored']);
    // A supervisor's own record does not come in under a volunteer, and does once she is signed in.
    const away = log.add([left], 'sol');
    expect(await outcomes('ines', away)).toEqual(['record-hand-away']);
    expect(await outcomes('sol', away)).toEqual(['stored']);
    // On a device that she never held, or before she did, it is nobody's word.
    const elsewhere = log.add([weighed(2, 700, noon)], 'sol', 'laptop');
    expect(await outcomes('ines', elsewhere)).toEqual(['record-kept-apart']);
    signIns.putSignIn({ device: DeviceId.parse('new'), person: id('sol'), since: at('2026-03-02'), until: null });
    const early = log.add([weighed(2, 701, at('2026-02-28'))], 'sol', 'new', at('2026-02-28'));
    const inTime = log.add([weighed(2, 702, at('2026-03-02', '10:00'))], 'sol', 'new', at('2026-03-02', '10:00'));
    expect(await outcomes('ines', [...early, ...inTime])).toEqual(['record-kept-apart', 'stored']);
    expect((await store.head()).seq).toBe(before + 4);
    expect(signIns.apart().map(({ id: one, why }) => [one, why])).toEqual(
      [elsewhere[0], early[0]].map((one) => [one?.id, 'not-signed-in']),
    );
  });

  it('is nobody’s after who has no PIN signed out there, or another signed in (Verifies: LOG-R201)', async () => {
    const around = await withPassword('sol');
    const { signIns, log } = around;
    const { client, device } = browser(around, 'desk-7');
    const enter = (person: string) => client.signIn({ person: id(person), kind: 'password', secret, device });
    const outcomeOf = async (hand: string, minutes: number) => {
      const on = new Date(Date.parse(noon) + minutes * minute_ms).toISOString();
      const answer = await client.append({ records: log.add([weighed(1, 600 + minutes, on)], hand, 'desk-7', on) });
      return answer.ok ? (answer.value.outcomes[0]?.problem?.code ?? answer.value.outcomes[0]?.outcome) : answer.code;
    };
    await enter('sol');
    pass(around, 60 * minute_ms);
    await client.signOut();
    signIns.setSecret(id('ines'), 'password', await hash);
    await enter('ines');
    // What she wrote before she left, and nothing after it.
    expect(await outcomeOf('sol', 30)).toBe('stored');
    pass(around, 60 * minute_ms);
    expect(await outcomeOf('sol', 110)).toBe('record-kept-apart');
    // Another who signs in ends her stay as signing out does.
    await enter('sol');
    expect(await outcomeOf('ines', 119)).toBe('stored');
    pass(around, 60 * minute_ms);
    expect(await outcomeOf('ines', 170)).toBe('record-kept-apart');
    // By a PIN she opens the device without the server, so what is written there may be hers.
    signIns.setSecret(id('ines'), 'pin', await hash);
    await enter('ines');
    await enter('sol');
    pass(around, 60 * minute_ms);
    expect(await outcomeOf('ines', 230)).toBe('stored');
  });

  it('of a veterinarian is their own, with the password just given (Verifies: LOG-R210)', async () => {
    const around = await withPassword('vera');
    const { as, log } = around;
    const { client, device } = browser(around, 'vera-1');
    await client.signIn({ person: id('vera'), kind: 'password', secret, device });
    const order = {
      name: 'Wash the eyes',
      treat: { is: 'words', words: 'Wash the eyes' },
      starts: '2026-03-02',
      timing: { is: 'days', every: 1 },
      ends: { is: 'after-days', days: 3 },
      vet: 'vera',
    };
    const records = log.add([draft('order-written', 'animal:kit-1', { order } as never, noon)], 'vera', 'vera-1');
    const got = async (asks = client) => {
      const answer = await asks.append({ records });
      return answer.ok ? (answer.value.outcomes[0]?.problem?.code ?? answer.value.outcomes[0]?.outcome) : answer.code;
    };
    expect(await got(as('sol'))).toBe('record-hand-away');
    pass(around, 11 * minute_ms);
    expect(await got()).toBe('record-not-fresh');
    expect(codeOf(await client.confirm({ secret: 'wrong' }))).toBe('sign-in-wrong');
    expect(await client.confirm({ secret })).toMatchObject({ value: { freshUntil: at('2026-03-02', '12:21') } });
    expect(await got()).toBe('stored');
  });

  it('of a foster home is about its own animals (Verifies: LOG-R211)', async () => {
    const { as, log, signIns } = await shelter();
    await as('sol').append({ records: log.add(describePerson({ person: id('finn'), role: 'foster' }, noon), 'sol') });
    wasSignedIn(signIns, 'finn');
    expect(codeOf(await as('sol').setHome({ person: id('finn'), animals: ['kit-1' as never] }))).toBe('ok');
    const records = log.add([weighed(1, 620, noon), weighed(2, 640, noon)], 'finn');
    expect(await as('finn').append({ records })).toMatchObject({
      value: { outcomes: [{ outcome: 'stored' }, { problem: { said: { say: 'people.not-own-animal' } } }] },
    });
    expect(codeOf(await as('finn').animalRecords({ animal: 'kit-1' as never }))).toBe('ok');
    expect(codeOf(await as('finn').animalRecords({ animal: 'kit-2' as never }))).toBe('role-not-allowed');
    expect(codeOf(await as('finn').records())).toBe('role-not-allowed');
  });
});

describe('a device that is revoked (Verifies: LOG-R209)', () => {
  it('is out at once, and what it still brings waits for a person', async () => {
    const around = await withPassword('ines');
    const { as, log, store } = around;
    const phone = browser(around, 'lost-1');
    const enter = () => phone.client.signIn({ person: id('ines'), kind: 'password', secret, device: phone.device });
    await enter();
    expect(codeOf(await as('sol').nameDevice({ device: phone.device, name: 'The lost one' }))).toBe('ok');
    expect(codeOf(await as('sol').revokeDevice({ device: phone.device }))).toBe('ok');
    expect(codeOf(await phone.client.records())).toBe('person-missing');
    expect(codeOf(await enter())).toBe('device-revoked');
    const records = log.add([weighed(1, 620, noon), weighed(2, 640, noon)], 'ines', 'lost-1');
    const { seq } = await store.head();
    for (let time = 0; time < 2; time += 1)
      expect(await phone.client.append({ records })).toMatchObject({
        value: { outcomes: [{ problem: { code: 'record-kept-apart' } }, { problem: { code: 'record-kept-apart' } }] },
      });
    expect((await store.head()).seq).toBe(seq);
    // Replayed over the line of somebody else it is no better.
    await as('sol').append({ records });
    expect((await store.head()).seq).toBe(seq);
    const waiting = await as('sol').apart();
    expect(waiting).toMatchObject({ value: { records: [{ why: 'device-revoked' }, { why: 'device-revoked' }] } });
    const [one, two] = records.map((record) => record.id);
    const judged = { taken: 1, dropped: 0, stay: 0 };
    expect(await as('sol').judgeApart({ ids: [one ?? ''], take: true })).toMatchObject({ value: judged });
    expect(await as('sol').judgeApart({ ids: [two ?? ''], take: false })).toMatchObject({ value: { dropped: 1 } });
    expect((await store.read()).at(-1)).toMatchObject({ id: one, by: 'ines' });
    expect(await as('sol').apart()).toMatchObject({ value: { records: [] } });
  });
});

describe('a stranger (Verifies: LOG-R212)', () => {
  it('learns that there is a shelter, and nothing of it', async () => {
    const around = await shelter();
    const { client } = browser(around);
    const answer = await client.shelter();
    expect(answer).toEqual({ ok: true, value: { state: 'closed', serverAt: noon, version: '9.9.9', first: true } });
    expect(codeOf(await client.people({}))).toBe('person-missing');
    expect((await around.app.inject('/api/events')).json()).toMatchObject({ code: 'person-missing' });
  });
});
