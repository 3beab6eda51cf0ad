import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import Papa from 'papaparse';
import { afterEach, describe, expect, it } from 'vitest';
import { at, day } from '../../test/support/log.js';
import { shelterLog, weighed, wormed } from '../../test/support/shelter-log.js';
import { createClient, type Fetch } from '../api/client.js';
import { limits } from '../api/wire.js';
import { DeviceId, PersonId, SectionId } from '../core/ids.js';
import { said } from '../core/said.js';
import { draft, type LogRecord } from '../log/record.js';
import { type LogStore, StoreTrouble } from '../log/store.js';
import { memoryStore } from '../store/memory/store.js';
import { type AppOptions, createApp } from './app.js';

const noon = at('2026-03-02', '12:00');
const open: FastifyInstance[] = [];
afterEach(async () => {
  for (const app of open.splice(0)) await app.close();
});

async function server(options: Partial<AppOptions> = {}) {
  const store = options.store ?? memoryStore();
  const time = { now: noon };
  const app = await createApp({ store, clock: () => time.now, version: '9.9.9', ...options });
  open.push(app);
  const fetch: Fetch = async (url, { method, headers, body }) => {
    const answer = await app.inject({
      method: method as 'GET',
      url,
      headers,
      ...(body === undefined ? {} : { payload: body }),
    });
    return { status: answer.statusCode, text: async () => answer.body };
  };
  const as = (person: string | null, now = time.now) =>
    createClient(fetch, '', { person: () => person, now: () => now });
  return { app, store, time, as, fetch };
}

async function shelter(kittens = 3, zone = 'UTC') {
  const log = shelterLog(kittens, zone);
  const store = memoryStore();
  await store.append(log.records, noon);
  return { log, ...(await server({ store })) };
}

const value = <T>(answer: { ok: true; value: T } | { ok: false; code: string }): T => {
  if (!answer.ok) throw new Error(answer.code);
  return answer.value;
};
const code = (answer: { ok: boolean; code?: string }): string | undefined => (answer.ok ? 'ok' : answer.code);

const plan = {
  name: 'Own shelter',
  zone: 'Europe/Paris',
  weightUnit: 'g',
  sections: [
    { name: 'Nursery', rank: 'clean-kittens', kennels: ['N1'] },
    { name: 'Isolation', rank: 'isolation', contactMinutes: 5 },
  ],
  people: [
    { name: 'Ana', role: 'volunteer' },
    { name: 'Bo', role: 'supervisor' },
  ],
  me: 1,
  device: DeviceId.parse('desk-1'),
} as const;
const setUp = { ...plan, sections: plan.sections.map((one) => ({ ...one, kennels: [] })), people: [...plan.people] };

describe('setting up', () => {
  it('says that there is nothing yet, and takes nothing in', async () => {
    const { as } = await server();
    expect(value(await as(null).shelter())).toEqual({ state: 'empty', version: '9.9.9', demoOffered: false });
    expect(code(await as('x').append({ records: [] }))).toBe('no-shelter-yet');
    expect(code(await as('x').due())).toBe('no-shelter-yet');
  });

  it('makes a shelter of one form, with what is usual for each section, on the device that asked', async () => {
    const { as, store } = await server();
    const done = value(await as(null).setUp(setUp));
    expect(done.shelter).toMatchObject({
      state: 'ready',
      name: 'Own shelter',
      zone: 'Europe/Paris',
      demo: false,
      protocol: null,
    });
    expect(done.shelter.people.find(({ id }) => id === done.person)?.name).toBe('Bo');
    const records = await store.read();
    expect(records.map(({ deviceSeq }) => deviceSeq)).toEqual(records.map((_, index) => index + 1));
    expect(new Set(records.map(({ device, by }) => `${device} ${by}`))).toEqual(new Set([`desk-1 ${done.person}`]));
    const isolation = records.find(({ body }) => (body as { rank?: string }).rank === 'isolation')?.body;
    expect(isolation).toMatchObject({ contactMinutes: 5, wear: expect.arrayContaining(['wear.gown']) });
  });

  it('makes one shelter when two people press at the same time', async () => {
    const { as, store } = await server();
    const [first, second] = await Promise.all([as(null).setUp(setUp), as(null).setUp({ ...setUp, name: 'Other' })]);
    expect([code(first), code(second)]).toEqual(['ok', 'shelter-exists']);
    expect((await store.rows('people')).length).toBe(2);
  });

  it.each([
    ['me outside the list', { ...setUp, me: 7 }, 'request-malformed'],
    ['a zone that is none', { ...setUp, zone: 'Mars/Olympus' }, 'request-malformed'],
    ['a volunteer alone', { ...setUp, me: 0 }, 'setup-needs-supervisor'],
  ])('does not make one of %s', async (_what, asked, wanted) => {
    const { as, store } = await server();
    const answer = await as(null).setUp(asked);
    expect(code(answer)).toBe(wanted);
    expect(answer).toMatchObject({ problem: { detail: expect.stringMatching(/\w.*\.$/) } });
    expect((await store.head()).seq).toBe(0);
  });

  it('offers the invented shelter only where there is one, and not over another', async () => {
    const without = await server();
    expect(code(await without.as(null).setUpDemo({}))).toBe('demo-not-offered');
    const asked: unknown[] = [];
    const { as, store } = await server({
      zone: 'Pacific/Auckland',
      demo: (given) => {
        asked.push(given);
        return shelterLog().records;
      },
    });
    expect(value(await as(null).shelter())).toMatchObject({ demoOffered: true });
    expect(value(await as(null).setUpDemo({ seed: 7 }))).toMatchObject({ state: 'ready', name: 'Test nursery' });
    expect(asked).toEqual([{ today: day('2026-03-03'), now: noon, seed: 7 }]);
    expect(code(await as(null).setUpDemo({}))).toBe('shelter-exists');
    expect((await store.head()).seq).toBe(shelterLog().records.length);
  });
});

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
    const role = draft(
      'person-described',
      'person:ines',
      { person: PersonId.parse('ines'), name: 'Ines', role: 'medical' },
      noon,
    );
    const [byInes] = log.add([role], 'ines');
    const [bySol] = log.add([{ ...role, body: { ...role.body, role: 'caregiver' } } as typeof role], 'sol');
    const signature = log.records.find(({ kind }) => kind === 'document-signed');
    const [undo] = log.add(
      [draft('record-withdrawn', signature?.subject ?? '', { reason: 'no' }, noon, signature?.id)],
      'ines',
    );
    const { outcomes } = value(await as('sol').append({ records: [byInes, bySol, undo] }));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'record-not-allowed',
      'stored',
      'record-not-allowed',
    ]);
    expect(outcomes[0]?.problem?.detail).toContain('Ines may not record this');
  });

  it('lets only a licence sign (Verifies: LOG-R13)', async () => {
    const { as, log } = await shelter();
    const tech = PersonId.parse('tom');
    const person = draft('person-described', 'person:tom', { person: tech, name: 'Tom', role: 'medical' }, noon);
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

  it('asks who is there, on every route that needs it', async () => {
    const { as, log } = await shelter();
    log.add(
      [
        draft(
          'person-described',
          'person:ines',
          { person: PersonId.parse('ines'), name: 'Ines', role: 'volunteer', active: false },
          noon,
        ),
      ],
      'sol',
    );
    expect(code(await as(null).records())).toBe('person-missing');
    expect(code(await as('nobody').records())).toBe('person-unknown');
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
    const { as, app, log } = await shelter();
    const [one] = log.add([weighed(1, 620, noon)], 'ines');
    expect(code(await as('ines').append({ records: Array.from({ length: limits.batch + 1 }, () => one) }))).toBe(
      'request-malformed',
    );
    const big = await app.inject({
      method: 'POST',
      url: '/api/records',
      headers: { 'content-type': 'application/json', 'x-roundhand-person': 'ines' },
      payload: `{"records":["${'x'.repeat(limits.bodyBytes)}"]}`,
    });
    expect(big.statusCode).toBe(413);
    expect(big.json()).toMatchObject({ code: 'request-too-large', detail: expect.stringContaining('16 MB') });
  });

  it('is not done for a page of another site, nor for a form', async () => {
    const { app, store } = await server();
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
});

describe('reading', () => {
  it('gives the log by place, page by page, the same to everybody (Verifies: LOG-R1)', async () => {
    const { as, store } = await shelter(8);
    const all = await store.read();
    const read = [];
    for (let after = 0; ; ) {
      const page = value(await as('ines').records({ after, limit: 5 }));
      if (page.records.length === 0) break;
      read.push(...page.records);
      after = page.next;
    }
    expect(read).toEqual(all);
    const end = value(await as('ines').records({ after: all.length }));
    expect(end).toMatchObject({ records: [], next: all.length, head: { seq: all.length } });
  });

  it('cuts a page short when its text grows too long', async () => {
    const { as, log, store } = await shelter(1);
    const photo = `data:image/jpeg;base64,${'A'.repeat(390_000)}`;
    const marks = { collar: '', coat: '', mark: '', photo };
    log.add(
      Array.from({ length: 30 }, () => draft('animal-described', 'animal:kit-1', { marks }, noon)),
      'sol',
    );
    await store.append(log.records, noon);
    const page = value(await as('ines').records({ after: 0, limit: 1000 }));
    expect(page.records.length).toBeLessThan(log.records.length);
    const rest = value(await as('ines').records({ after: page.next, limit: 1000 }));
    expect(rest.records[0]?.seq).toBe(page.next + 1);
  });

  it('lists what is due today and on another day, by section, schedule and status', async () => {
    const { as, log } = await shelter(3);
    await as('ines').append({ records: log.add([wormed(1, noon)], 'ines') });
    const today = value(await as('ines').due());
    expect(today.on).toBe('2026-03-02');
    expect(today.lines.map(({ name }) => name)).toEqual(expect.arrayContaining(['Kit 1', 'Kit 2', 'Kit 3']));
    const worms = value(await as('ines').due({ schedule: 'roundworm' })).lines;
    expect(worms.map(({ name, status }) => [name, status === 'not-yet'])).toEqual([
      ['Kit 1', true],
      ['Kit 2', false],
      ['Kit 3', false],
    ]);
    expect(worms[0]).toMatchObject({ label: '001', sectionName: 'Nursery', protocol: 'starter@1', dose: 2 });
    expect(worms[0]?.scheduleName).not.toBe('roundworm');
    const open = value(await as('ines').due({ schedule: 'roundworm', status: ['due', 'overdue'] })).lines;
    expect(open.map(({ name }) => name)).toEqual(['Kit 2', 'Kit 3']);
    const later = value(await as('ines').due({ schedule: 'roundworm', on: day('2026-05-01'), status: ['overdue'] }));
    expect(later.lines.map(({ name }) => name)).toEqual(['Kit 1', 'Kit 2', 'Kit 3']);
    expect(value(await as('ines').due({ section: SectionId.parse('quarantine') })).lines).toEqual([]);
  });

  it('writes the due list as CSV that reads back as the same text (RFC 4180)', async () => {
    const { app, as, log } = await shelter(2);
    const odd = { name: '=HYPERLINK("x")', label: '0012', notes: '' };
    await as('sol').append({ records: log.add([draft('animal-described', 'animal:kit-1', odd, noon)], 'sol') });
    const answer = await app.inject({ url: '/api/due?format=csv', headers: { 'x-roundhand-person': 'ines' } });
    expect(answer.headers['content-type']).toContain('text/csv');
    const read = Papa.parse<Record<string, string>>(answer.body, { header: true, skipEmptyLines: true });
    expect(read.errors).toEqual([]);
    const lines = value(await as('ines').due()).lines;
    expect(read.data.map(({ label, due_on, status }) => [label, due_on, status])).toEqual(
      lines.map(({ label, due, status }) => [label, due ?? '', status]),
    );
    // A spreadsheet must not run what somebody typed as a name.
    expect(read.data.find(({ label }) => label === '0012')?.name).toBe(`'=HYPERLINK("x")`);
  });

  it('lists animals and flags, with sentences', async () => {
    const { as, log } = await shelter(3);
    const twice = log.add([wormed(1, noon), wormed(1, at('2026-03-02', '12:30'))], 'ines');
    const left = log.add(
      [draft('animal-left', 'animal:kit-2', { how: 'adopted', on: day('2026-03-02') }, noon)],
      'sol',
    );
    await as('sol').append({ records: [...twice, ...left] });
    expect(value(await as('ines').animals()).animals.map(({ name }) => name)).toEqual(['Kit 1', 'Kit 3']);
    expect(value(await as('ines').animals({ inCare: 'no' })).animals.map(({ name }) => name)).toEqual(['Kit 2']);
    const stops = value(await as('sol').flags({ severity: 'stop', state: ['open'] })).flags;
    expect(stops.map(({ code: flag }) => flag)).toContain('given-twice');
    const all = value(await as('sol').flags()).flags;
    expect(all.map(({ severity }) => severity)).toEqual([...all.map(({ severity }) => severity)].sort().reverse());
  });

  it('verifies itself', async () => {
    const { as } = await shelter();
    expect(value(await as('sol').verify())).toMatchObject({ whole: true, unreadable: [], chain: { whole: true } });
  });

  it('works out the new day by itself when it is asked after midnight of the shelter', async () => {
    const { as, log, time } = await shelter(1, 'America/Chicago');
    await as('ines').append({ records: log.add([wormed(1, noon)], 'ines') });
    time.now = '2026-03-03T05:30:00.000Z';
    expect(value(await as('ines').due()).on).toBe('2026-03-02');
    time.now = '2026-03-03T06:30:00.000Z';
    expect(value(await as('ines').due()).on).toBe('2026-03-03');
  });
});

describe('when something is wrong with the records', () => {
  const failing = (trouble: StoreTrouble): LogStore => {
    const store = memoryStore();
    return {
      ...store,
      append: async (batch, now) => (batch.length === 0 ? store.append(batch, now) : Promise.reject(trouble)),
    };
  };

  it.each([
    ['full', 'store-full', 507],
    ['busy', 'store-busy', 503],
    ['damaged', 'store-trouble', 500],
  ] as const)('says so of a store that is %s, and names no file', async (trouble, wanted, status) => {
    const why = said(`server.store.${trouble}`, { file: '/secret/place', detail: '/secret/place' });
    const { as, app } = await server({ store: failing(new StoreTrouble(trouble, why)) });
    const answer = await as(null).setUp(setUp);
    expect(code(answer)).toBe(wanted);
    expect(answer).toMatchObject({ problem: { status } });
    expect(JSON.stringify(answer)).not.toContain('secret');
    expect((await app.inject('/api/health')).statusCode).toBe(200);
  });

  it('hides what it did not expect', async () => {
    const store = { ...memoryStore(), read: () => Promise.reject(new Error('a secret of the inside')) };
    const inner = memoryStore();
    await inner.append(shelterLog(1).records, noon);
    const { app } = await server({ store: { ...inner, rows: store.read } });
    const answer = await app.inject({ url: '/api/animals', headers: { 'x-roundhand-person': 'ines' } });
    expect(answer.json()).toMatchObject({ code: 'unexpected', status: 500 });
    expect(answer.body).not.toContain('secret');
  });
});

describe('the web app', () => {
  it('is served with its pages, and lets no other script run', async () => {
    const webRoot = mkdtempSync(join(tmpdir(), 'roundhand-web-'));
    writeFileSync(join(webRoot, 'index.html'), '<!doctype html><title>Roundhand</title>');
    writeFileSync(join(webRoot, 'sw.js'), '// worker');
    const { app } = await server({ webRoot });
    const html = { accept: 'text/html' };
    for (const url of ['/', '/desk', '/round/abc/animal?x=1']) {
      const page = await app.inject({ url, headers: html });
      expect([page.statusCode, page.headers['cache-control']], url).toEqual([200, 'no-cache']);
      expect(page.body).toContain('Roundhand');
      const policy = String(page.headers['content-security-policy']);
      expect(policy).toContain("script-src 'self';");
      expect(policy.split(';').find((part) => part.includes('script-src'))).not.toContain('unsafe');
      expect(page.headers['x-content-type-options']).toBe('nosniff');
    }
    expect((await app.inject('/sw.js')).headers['content-type']).toContain('javascript');
    for (const url of ['/missing.js', '/api/nothing', '/../package.json', '/%2e%2e/package.json']) {
      const answer = await app.inject({ url, headers: html });
      expect([answer.statusCode, answer.headers['content-type']], url).toEqual([
        404,
        'application/problem+json; charset=utf-8',
      ]);
    }
    rmSync(webRoot, { recursive: true });
  });
});
