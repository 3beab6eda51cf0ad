import { describe, expect, it } from 'vitest';
import { code, noon, shelter, value } from '../../test/support/app.js';
import { starterProtocol } from '../../test/support/documents.js';
import { at, day } from '../../test/support/log.js';
import { PersonId } from '../core/ids.js';
import { describePerson } from '../log/commands/shelter.js';
import { draft } from '../log/record.js';
import { tableNames } from '../store/read-tables.js';

const id = (text: string): PersonId => PersonId.parse(text);
const contacts = [{ by: 'e-mail' as const, value: 'ines@invented.example' }];
const starter = starterProtocol();

/** All that the log and its read tables say. */
async function everything({ store }: Awaited<ReturnType<typeof shelter>>): Promise<string> {
  const rows = await Promise.all(tableNames.map((table) => store.rows(table)));
  return JSON.stringify([await store.head(), await store.read(), rows]);
}

describe('the private side', () => {
  it('is changed without touching a record: setting, removing and erasing leave log and rows as they are (Verifies: LOG-R86)', async () => {
    const around = await shelter();
    const before = await everything(around);
    const { as } = around;
    value(await as('sol').changePeople({ changes: [{ id: id('ines'), name: 'Ines Other', contacts }] }));
    value(await as('sol').changePeople({ changes: [{ id: id('ines'), contacts: [] }] }));
    value(await as('sol').changePeople({ changes: [{ id: id('carer-9'), name: 'Carer Nine', contacts }] }));
    value(await as('vera').erasePeople({ ids: [id('carer-9')] }));
    expect(value(await as('sol').peopleInFull()).people).toMatchObject([
      { id: 'ines', name: 'Ines Other', contacts: [] },
      { id: 'sol' },
      { id: 'vera' },
    ]);
    expect(await everything(around)).toBe(before);
  });

  it('is set and seen in full by the desk alone (Verifies: LOG-R84)', async () => {
    const { as } = await shelter();
    const change = { changes: [{ id: id('ines'), contacts }] };
    for (const [who, wanted] of [
      [null, 'person-missing'],
      ['nobody', 'person-missing'],
      ['ines', 'role-not-allowed'],
    ] as const) {
      expect(code(await as(who).changePeople(change))).toBe(wanted);
      expect(code(await as(who).peopleInFull())).toBe(wanted);
      expect(code(await as(who).erasePeople({ ids: [id('ines')] }))).toBe(wanted);
    }
    for (const who of ['sol', 'vera']) {
      expect(value(await as(who).changePeople(change)).outcomes).toEqual(['kept']);
      expect(JSON.stringify(value(await as(who).peopleInFull()))).toContain('ines@invented.example');
    }
  });

  it('gives names, never contacts, and the list again only when it is another one (Verifies: LOG-R82)', async () => {
    const { as } = await shelter();
    value(
      await as('sol').changePeople({
        changes: [
          { id: id('ines'), contacts },
          { id: id('x'), name: 'No Staff' },
        ],
      }),
    );
    expect(code(await as(null).people({}))).toBe('person-missing');
    const { tag, people } = value(await as('ines').people({}));
    expect(people).toEqual([
      { id: 'ines', name: 'Ines', licence: '' },
      { id: 'sol', name: 'Sol', licence: '' },
      { id: 'vera', name: 'Vera', licence: 'Invented 1' },
    ]);
    expect(value(await as('ines').people({ have: tag }))).toEqual({ tag, people: null });
    value(await as('sol').changePeople({ changes: [{ id: id('ines'), withdrawn: true }] }));
    expect(value(await as('ines').people({ have: tag })).people?.map((one) => one.id)).toEqual(['sol', 'vera']);
  });

  it('is not erased of somebody who works there (Verifies: LOG-R84)', async () => {
    const { as, log } = await shelter();
    const refused = await as('sol').erasePeople({ ids: [id('ines')] });
    expect(code(refused)).toBe('person-at-work');
    expect(refused).toMatchObject({ problem: { detail: expect.stringContaining('Ines works here') } });
    const left = log.add(describePerson({ person: id('ines'), role: 'volunteer', active: false }, noon), 'sol');
    value(await as('sol').append({ records: left }));
    expect(value(await as('sol').erasePeople({ ids: [id('ines')] }))).toEqual({ erased: 1 });
    expect(value(await as('sol').changePeople({ changes: [{ id: id('ines'), name: 'Ines' }] })).outcomes).toEqual([
      'erased',
    ]);
  });

  it('has a licence from an administrator alone, and loses it by anybody at the desk (Verifies: LOG-R216)', async () => {
    const { as, log, signIns } = await shelter();
    value(
      await as('sol').append({ records: log.add(describePerson({ person: id('tom'), role: 'medical' }, noon), 'sol') }),
    );
    const give = async (who: string, whom: string, licence: string) =>
      code(await as(who).changePeople({ changes: [{ id: id(whom), name: whom, licence }] }));
    // Not to oneself, not to a colleague; neither by somebody of the medical team nor by a veterinarian.
    for (const who of ['tom', 'sol', 'vera']) expect(await give(who, 'tom', 'Invented 9')).toBe('role-not-allowed');
    expect(await give('sol', 'vera', 'Invented 9')).toBe('role-not-allowed');
    // What is there already is no gift.
    expect(await give('sol', 'vera', 'Invented 1')).toBe('ok');
    expect(await give('sol', 'vera', '')).toBe('ok');
    signIns.setAdministers(id('sol'), true);
    expect(await give('sol', 'tom', 'Invented 9')).toBe('ok');
  });

  it('is what a signature is held against; withdrawn from devices, a name still signs, erased it does not (Verifies: LOG-R87)', async () => {
    const { as, log, signIns } = await shelter();
    signIns.setAdministers(id('sol'), true);
    const sign = (signer: string, licence: string) => {
      const what = { document: 'protocol', id: starter.id, version: starter.version, on: day('2026-03-02') } as const;
      const body = { ...what, signer, licence, statement: '' };
      return log.add([draft('document-signed', `document:${starter.id}`, body, at('2026-03-02'))], 'vera');
    };
    const outcomeOf = async (signer: string, licence: string, bringer = 'vera') =>
      value(await as(bringer).append({ records: sign(signer, licence) })).outcomes.map(
        ({ outcome, problem }) => problem?.code ?? outcome,
      );
    expect(await outcomeOf('Vera', 'Invented 1')).toEqual(['stored']);
    value(await as('sol').changePeople({ changes: [{ id: id('vera'), licence: 'Invented 3', withdrawn: true }] }));
    expect(await outcomeOf('Vera', 'Invented 1')).toEqual(['record-not-allowed']);
    expect(await outcomeOf('Vera', 'Invented 3')).toEqual(['stored']);
    const left = log.add(describePerson({ person: id('vera'), role: 'medical', active: false }, noon), 'sol');
    value(await as('sol').append({ records: left }));
    value(await as('sol').erasePeople({ ids: [id('vera')] }));
    expect(await outcomeOf('Vera', 'Invented 3', 'sol')).toEqual(['record-not-allowed']);
  });

  it('puts names into the sentences of the answers, and plain words where a name was withdrawn (Verifies: LOG-R82)', async () => {
    const { as, log } = await shelter();
    const records = log.add(describePerson({ person: id('nic'), role: 'volunteer' }, noon), 'ines');
    const detail = async () => value(await as('sol').append({ records })).outcomes[0]?.problem?.detail;
    expect(await detail()).toMatch(/^Ines may not record this/);
    value(await as('sol').changePeople({ changes: [{ id: id('ines'), withdrawn: true }] }));
    expect(await detail()).toMatch(/^a former team member may not record this/);
  });
});
