import { describe, expect, it } from 'vitest';
import { shelter } from '../../../test/support/app.js';
import { at } from '../../../test/support/log.js';
import { weighed } from '../../../test/support/shelter-log.js';
import { wasSignedIn } from '../../../test/support/signed-in.js';
import { browser, codeOf, hash, id, minute_ms, pass, secret, withPassword } from '../../../test/support/signing-in.js';
import { DeviceId } from '../../core/ids.js';
import { describePerson } from '../../log/commands/shelter.js';
import { type Draft, draft } from '../../log/record.js';

const noon = at('2026-03-02', '12:00');
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
    // Another device's, and of somebody whose word goes further: under a volunteer it would be an unproved word of the desk.
    expect(await outcomes('ines', [...early, ...inTime])).toEqual(['record-kept-apart', 'record-hand-away']);
    expect(await outcomes('sol', inTime)).toEqual(['stored']);
    expect((await store.head()).seq).toBe(before + 4);
    expect(signIns.apart().map(({ id: one, why }) => [one, why])).toEqual(
      [elsewhere[0], early[0]].map((one) => [one?.id, 'not-signed-in']),
    );
  });

  it('is not that of somebody whose word goes further, whoever sends it from wherever (Verifies: LOG-R218)', async () => {
    const { as, log, signIns, store } = await shelter();
    const outcome = async (who: string, drafts: readonly Draft[], hand: string, device = 'vera-1') => {
      const answer = await as(who).append({ records: log.add(drafts, hand, device, noon) });
      return answer.ok ? (answer.value.outcomes[0]?.problem?.code ?? answer.value.outcomes[0]?.outcome) : answer.code;
    };
    wasSignedIn(signIns, 'vera', 'vera-1');
    wasSignedIn(signIns, 'vera');
    const seen = { code: 'ringworm-suspected', state: 'absent', on: '2026-03-02' };
    const over: Draft = draft('observation-noted', 'animal:kit-1', seen as never, noon);
    const answered: Draft = draft('flag-answered', 'flag:some', { flag: 'some', answer: 'done', note: 'So.' }, noon);
    const lifted: Draft = draft('hold-lifted', 'animal:kit-1', { hold: 'r1' as never }, noon);
    const { seq } = await store.head();
    for (const who of ['ines', 'sol']) expect(await outcome(who, [over], 'vera')).toBe('record-hand-away');
    expect(await outcome('sol', [answered], 'vera')).toBe('record-hand-away');
    // On the very device that she had in her hand only what a volunteer may comes along.
    expect(await outcome('sol', [lifted], 'vera', 'phone-a')).toBe('record-hand-away');
    expect((await store.head()).seq).toBe(seq);
    expect(await outcome('sol', [weighed(1, 640, noon)], 'ines', 'phone-a')).toBe('stored');
    expect(await outcome('vera', [over], 'vera')).toBe('stored');
  });

  it('is taken in from what is kept apart by nobody but them (Verifies: LOG-R218)', async () => {
    const { as, log, signIns } = await shelter();
    const order = {
      name: 'Wash the eyes',
      treat: { is: 'words', words: 'Wash the eyes' },
      starts: '2026-03-02',
      timing: { is: 'days', every: 1 },
      ends: { is: 'after-days', days: 3 },
      vet: 'vera',
    };
    const lifted: Draft = draft('hold-lifted', 'animal:kit-1', { hold: 'r1' as never }, noon);
    const forged = log.add(
      [draft('order-written', 'animal:kit-1', { order } as never, noon), lifted],
      'vera',
      'nowhere',
    );
    await as('sol').append({ records: forged });
    const ids = forged.map(({ id: one }) => one);
    expect(signIns.apart().map(({ id: one }) => one)).toEqual(ids);
    expect(await as('sol').judgeApart({ ids, take: true })).toMatchObject({ value: { taken: 0, stay: 2 } });
    expect(await as('vera').judgeApart({ ids, take: true })).toMatchObject({ value: { taken: 2, stay: 0 } });
  });

  it('of who looks after sign-ins is ended by another who does, and the last stays (Verifies: LOG-R219)', async () => {
    const around = await withPassword('vera');
    const { as, log, signIns } = around;
    signIns.setAdministers(id('vera'), true);
    const off = (by: string) =>
      as(by).append({
        records: log.add(describePerson({ person: id('vera'), role: 'medical', active: false }, noon), by),
      });
    for (const by of ['sol', 'vera']) {
      expect(await off(by)).toMatchObject({
        value: { outcomes: [{ problem: { said: { say: 'people.administrator-by-another' } } }] },
      });
    }
    signIns.setAdministers(id('sol'), true);
    expect(await off('sol')).toMatchObject({ value: { outcomes: [{ outcome: 'stored' }] } });
    signIns.setAdministers(id('sol'), false);
    expect(codeOf(await as('sol').erasePeople({ ids: [id('vera')] }))).toBe('role-not-allowed');
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
