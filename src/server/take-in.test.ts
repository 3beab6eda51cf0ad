import { describe, expect, it } from 'vitest';
import { code, noon, server, shelter, value } from '../../test/support/app.js';
import { starterFormulary } from '../../test/support/documents.js';
import { at, day } from '../../test/support/log.js';
import { starter } from '../../test/support/protocol.js';
import { weighed } from '../../test/support/shelter-log.js';
import { limits } from '../api/wire.js';
import { toConfirm } from '../core/dosing/before-signing.js';
import { PersonId } from '../core/ids.js';
import { writeAt } from '../core/protocol/document/paths.js';
import { draft, type LogRecord } from '../log/record.js';

describe('taking records in', () => {
  it('keeps what is good of a batch and says of each other one why not (Verifies: LOG-R12)', async () => {
    const { as, log, store } = await shelter();
    const before = await store.head();
    const [good, double, later] = log.add(
      [weighed(1, 620, noon), weighed(2, 630, noon), weighed(3, 640, noon)],
      'ines',
    ) as [LogRecord, LogRecord, LogRecord];
    const records: unknown[] = [
      good,
      'no record',
      { ...later, body: { grams: -5, entered: '' }, id: 'bad-body' },
      { ...later, kind: 'moon-phase', id: 'bad-kind' },
      { ...later, v: 99, id: 'newer' },
      { ...later, shelter: 'elsewhere', id: 'elsewhere' },
      { ...later, by: 'nobody', id: 'by-nobody' },
      { ...later, zone: 'half \ud800', id: 'half' },
      double,
      { ...double, happenedAt: at('2026-03-02', '11:00') },
      good,
    ];
    const { outcomes, head } = value(await as('ines').append({ records }));
    expect(outcomes.map(({ index }) => index)).toEqual(records.map((_, index) => index));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'stored',
      'record-malformed',
      'record-malformed',
      'record-malformed',
      'record-malformed',
      'record-of-another-shelter',
      'record-by-unknown',
      'record-malformed',
      'stored',
      'record-conflict',
      'already-there',
    ]);
    for (const { outcome, problem } of outcomes) {
      if (outcome === 'refused' || outcome === 'conflict') expect(problem?.detail).toMatch(/\w.*\.$/);
      else expect(problem).toBeNull();
    }
    expect(head.seq).toBe(before.seq + 2);
    expect(await store.rows('weighings')).toHaveLength(2);
  });

  it('lets each role record what it may, by who made the record, and withdraw nothing above it (Verifies: LOG-R13)', async () => {
    const { as, log } = await shelter();
    const person = { person: PersonId.parse('nic'), role: 'volunteer' } as const;
    const newcomer = draft('person-described', 'person:nic', person, noon);
    const [byInes] = log.add([newcomer], 'ines');
    const [bySol] = log.add([newcomer], 'sol');
    const signature = log.records.find(({ kind }) => kind === 'document-signed');
    const withdraw = draft('record-withdrawn', signature?.subject ?? '', { reason: 'no' }, noon, signature?.id);
    const undo = log.add([withdraw], 'ines').concat(log.add([withdraw], 'sol'));
    const byVera = log.add([withdraw], 'vera');
    const outcomes = [
      ...value(await as('sol').append({ records: [byInes, bySol, ...undo] })).outcomes,
      ...value(await as('vera').append({ records: byVera })).outcomes,
    ];
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'record-not-allowed',
      'stored',
      'record-not-allowed',
      'record-not-allowed',
      'stored',
    ]);
    expect(outcomes[0]?.problem?.detail).toContain('Ines may not record this');
    // Also when what is withdrawn comes in the same batch.
    const [described] = log.add([newcomer], 'sol');
    const [sly] = log.add([draft('record-withdrawn', 'person:nic', { reason: 'no' }, noon, described?.id)], 'ines');
    const together = value(await as('sol').append({ records: [described, sly] })).outcomes;
    expect(together.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual(['stored', 'record-not-allowed']);
  });

  it('asks the right of who did it and of who wrote it down (Verifies: LOG-R13, SHEET-R7)', async () => {
    const { as, log } = await shelter();
    const [weight] = log.add([weighed(1, 620, noon)], 'sol') as [LogRecord];
    const [moved] = log.add(
      [draft('animal-left', 'animal:kit-1', { how: 'adopted', on: day('2026-03-02') }, noon)],
      'sol',
    ) as [LogRecord];
    const records = [
      { ...weight, id: 'both-may', by: 'ines', writtenBy: 'sol' },
      { ...weight, id: 'writer-unknown', by: 'ines', writtenBy: 'nobody' },
      { ...moved, id: 'doer-may-not', by: 'ines', writtenBy: 'sol' },
      { ...moved, id: 'writer-may-not', by: 'sol', writtenBy: 'ines' },
    ];
    const { outcomes } = value(await as('sol').append({ records }));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'stored',
      'record-by-unknown',
      'record-not-allowed',
      'record-not-allowed',
    ]);
  });

  it('lets only a licence sign (Verifies: LOG-R13)', async () => {
    const { as, log } = await shelter();
    const tech = PersonId.parse('tom');
    const person = draft('person-described', 'person:tom', { person: tech, role: 'medical' }, noon);
    log.add([person], 'sol');
    const body = {
      document: 'protocol',
      id: 'starter',
      version: '1',
      signer: 'Tom',
      licence: 'none',
      on: day('2026-03-02'),
      statement: '',
    } as const;
    log.add([draft('document-signed', 'document:starter', body, noon)], 'tom');
    const { outcomes } = value(await as('sol').append({ records: log.records.slice(-2) }));
    // Tom is described in the same batch, so he is known; what he lacks is the licence.
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual(['stored', 'record-not-allowed']);
  });

  it('lets nobody sign in the name or under the licence of another (Verifies: LOG-R43)', async () => {
    const { as, log } = await shelter();
    const sign = (signer: string, licence: string) =>
      draft(
        'document-signed',
        'document:starter',
        { document: 'protocol', id: 'starter', version: '1', signer, licence, on: day('2026-03-02'), statement: '' },
        noon,
      );
    const records = log.add(
      [sign('Other', 'Invented 1'), sign('Vera', 'licence 9'), sign('Vera', 'Invented 1')],
      'vera',
    );
    const { outcomes } = value(await as('vera').append({ records }));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'record-not-allowed',
      'record-not-allowed',
      'stored',
    ]);
    expect(outcomes[0]?.problem?.detail).toMatch(
      /^This signature names Other, licence Invented 1, but it was made by Vera/,
    );
  });

  it('takes no signature under a formulary whose figures from memory are not confirmed (Verifies: DOSE-R33)', async () => {
    const { as, log } = await shelter();
    const formulary = { ...starterFormulary(), version: '2' };
    const sign = (confirmed: readonly string[]) =>
      draft(
        'document-signed',
        `document:${formulary.id}`,
        {
          document: 'formulary',
          id: formulary.id,
          version: '2',
          signer: 'Vera',
          licence: 'Invented 1',
          on: day('2026-03-02'),
          statement: '',
          confirmed: [...confirmed],
        },
        noon,
      );
    const all = toConfirm(formulary).map(({ key }) => key);
    expect(all.length).toBeGreaterThan(1);
    const filed = draft('formulary-filed', `document:${formulary.id}`, { formulary }, noon);
    const records = log.add([filed, sign([]), sign(all.slice(1)), sign(all)], 'vera');
    const { outcomes } = value(await as('vera').append({ records }));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'stored',
      'record-not-allowed',
      'record-not-allowed',
      'stored',
    ]);
    expect(outcomes[2]?.problem?.detail).toMatch(/memory/);
  });

  it('takes no signature under a protocol whose limits contradict each other (Verifies: PROT-R37)', async () => {
    const { as, log } = await shelter();
    const interval = ['schedules', 'core-vaccine', 'series', 'kitten', 'targets', 'until-grown', 'intervals', '0'];
    const span = { span: { weeks: 3 }, source: 'starter-choice', standing: 'common-practice', note: '' };
    const wider = writeAt({ ...starter, version: '2', choices: [] }, [...interval, 'minimum'], span) as typeof starter;
    const sign = { document: 'protocol', id: starter.id, version: '2', signer: 'Vera', licence: 'Invented 1' } as const;
    const subject = `document:${starter.id}`;
    const records = log.add(
      [
        draft('protocol-filed', subject, { protocol: wider }, noon),
        draft('document-signed', subject, { ...sign, on: day('2026-03-02'), statement: '' }, noon),
      ],
      'vera',
    );
    const { outcomes } = value(await as('vera').append({ records }));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual(['stored', 'record-not-allowed']);
    expect(outcomes[1]?.problem?.detail).toMatch(/Late from.*2 weeks and 1 day.*shorter than.*3 weeks/);
  });

  it('asks who is there, on every route that needs it', async () => {
    const { as, log } = await shelter();
    log.add(
      [
        draft(
          'person-described',
          'person:ines',
          { person: PersonId.parse('ines'), role: 'volunteer', active: false },
          noon,
        ),
      ],
      'sol',
    );
    expect(code(await as(null).records())).toBe('person-missing');
    expect(code(await as('nobody').records())).toBe('person-missing');
    expect(code(await as('ines').verify())).toBe('role-not-allowed');
    await as('sol').append({ records: log.records.slice(-1) });
    expect(code(await as('ines').records())).toBe('person-not-active');
  });

  it('measures the clock of the device and says when it matters, changing no time (Verifies: LOG-R14)', async () => {
    const { as, log, store } = await shelter();
    const [one] = log.add([weighed(1, 620, at('2026-03-02', '13:00'))], 'ines', 'tablet', at('2026-03-02', '13:00'));
    const fast = value(await as('ines', at('2026-03-02', '13:00')).append({ records: [one] })).clock;
    expect(fast).toEqual({
      serverAt: noon,
      deviceAt: at('2026-03-02', '13:00'),
      skew_s: 3600,
      note: expect.stringContaining('60 minutes fast'),
    });
    expect((await store.read()).at(-1)).toMatchObject({ happenedAt: at('2026-03-02', '13:00'), receivedAt: noon });
    const slow = value(await as('ines', '2026-03-02T11:57:00.000Z').append({ records: [] })).clock;
    expect(slow).toMatchObject({ skew_s: -180, note: expect.stringContaining('3 minutes slow') });
    const right = value(await as('ines', '2026-03-02T12:01:00.000Z').append({ records: [] })).clock;
    expect(right).toMatchObject({ skew_s: 60, note: null });
    expect(value(await as('ines', 'yesterday').append({ records: [] })).clock).toMatchObject({
      deviceAt: null,
      skew_s: null,
    });
  });

  it('says what is too much in one go', async () => {
    const { as, app, asking, log } = await shelter();
    const [one] = log.add([weighed(1, 620, noon)], 'ines');
    expect(code(await as('ines').append({ records: Array.from({ length: limits.batch + 1 }, () => one) }))).toBe(
      'request-malformed',
    );
    const big = await app.inject({
      method: 'POST',
      url: '/api/records',
      headers: { 'content-type': 'application/json', ...asking('ines') },
      payload: `{"records":["${'x'.repeat(limits.bodyBytes)}"]}`,
    });
    expect(big.statusCode).toBe(413);
    expect(big.json()).toMatchObject({ code: 'request-too-large', detail: expect.stringContaining('16 MB') });
  });

  it('is not done for a page of another site, nor for a form', async () => {
    const { app, store, setUp } = await server();
    const cross = await app.inject({
      method: 'POST',
      url: '/api/shelter',
      headers: { 'sec-fetch-site': 'cross-site' },
      payload: setUp,
    });
    expect(cross.json()).toMatchObject({ code: 'from-another-site', status: 403 });
    const form = await app.inject({
      method: 'POST',
      url: '/api/shelter',
      headers: { 'content-type': 'text/plain' },
      payload: JSON.stringify(setUp),
    });
    expect(form.json()).toMatchObject({ code: 'not-json', status: 415 });
    expect((await store.head()).seq).toBe(0);
  });

  it('answers only to addresses, local names and names of its own', async () => {
    const { app } = await server({ names: ['Desk.Example.org'] });
    const asked = async (host: string) => (await app.inject({ url: '/api/shelter', headers: { host } })).statusCode;
    for (const host of [
      '127.0.0.1:8600',
      '[::1]:8600',
      '192.168.1.5',
      'localhost',
      'desk.local:80',
      'nas',
      'desk.example.org',
    ]) {
      expect([host, await asked(host)]).toEqual([host, 200]);
    }
    for (const host of ['evil.example.com', 'localhost.evil.com', '127.0.0.1.evil.com:8600', 'example.org']) {
      expect([host, await asked(host)]).toEqual([host, 421]);
    }
  });
});
