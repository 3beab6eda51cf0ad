import { describe, expect, it } from 'vitest';
import { server, shelter } from '../../../test/support/app.js';
import { at } from '../../../test/support/log.js';
import { shelterLog, shelterPeople } from '../../../test/support/shelter-log.js';
import {
  type Around,
  browser,
  codeOf,
  hash,
  id,
  minute_ms,
  pass,
  secret,
  withPassword,
} from '../../../test/support/signing-in.js';
import { DeviceId, type PersonId } from '../../core/ids.js';
import { describePerson } from '../../log/commands/shelter.js';
import { draft } from '../../log/record.js';
import { memoryStore } from '../../store/memory/store.js';
import { memoryPrivateSide } from '../../store/private/memory.js';

const noon = at('2026-03-02', '12:00');
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

it('a stranger’s wrong tries keep nobody out of a device that they know, nor of a session (Verifies: LOG-R205)', async () => {
  const around = await withPassword('vera');
  const own = browser(around, 'vera-1');
  const enter = () => own.client.signIn({ name: 'Vera', kind: 'password', secret, device: own.device });
  expect(codeOf(await enter())).toBe('ok');
  const stranger = browser(around, 'nowhere');
  const tried = (typed: string) =>
    stranger.client.signIn({ name: 'Vera', kind: 'password', secret: typed, device: stranger.device });
  for (let time = 1; time <= 5; time += 1) expect(codeOf(await tried('wrong'))).toBe('sign-in-wrong');
  expect(codeOf(await tried(secret))).toBe('sign-in-waits');
  expect(codeOf(await own.client.confirm({ secret }))).toBe('ok');
  await own.client.signOut();
  expect(codeOf(await enter())).toBe('ok');
  // Her own wrong tries there count there.
  for (let time = 1; time <= 5; time += 1) await own.client.confirm({ secret: 'wrong' });
  expect(codeOf(await own.client.confirm({ secret }))).toBe('sign-in-waits');
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
