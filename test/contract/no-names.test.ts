import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Names, noNames } from '../../src/core/people.js';
import type { Said } from '../../src/core/said.js';
import { flagsIn } from '../../src/log/flags/flags.js';
import { namesGiven } from '../../src/log/private-side.js';
import { buildWorld } from '../../src/log/views/world.js';
import { createApp } from '../../src/server/app.js';
import { exportRecords } from '../../src/store/export.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { openPrivateSide, privateFile } from '../../src/store/private/sqlite.js';
import { emptyProjection, project, rowsOf } from '../../src/store/projection.js';
import { tableNames } from '../../src/store/read-tables.js';
import { openStore, type SqliteStore } from '../../src/store/sqlite/open.js';
import { english } from '../../src/words/english.js';
import { sayFor, setNames } from '../../src/words/say.js';
import { demoOn } from '../support/demo.js';
import { cookieOf } from '../support/signed-in.js';

const demo = demoOn('2026-05-20');
const folder = mkdtempSync(join(tmpdir(), 'roundhand-no-names-'));
let store: SqliteStore;

/** Everything by which one of the people could be known. */
const secrets = demo.people.flatMap(({ name, licence, contacts }) => [
  name,
  ...(licence === '' ? [] : [licence]),
  ...contacts.map(({ value }) => value),
]);
const foundIn = (text: string): string[] => secrets.filter((secret) => text.includes(secret));

/** What a person signed with name and licence: the signature, and a standing order in a filed formulary. */
const isSignedDocument = ({ kind }: { readonly kind: string }): boolean =>
  kind === 'document-signed' || kind === 'formulary-filed';

beforeAll(async () => {
  const opened = await openStore(folder);
  const side = openPrivateSide(folder);
  if (!opened.ok || !side.ok) throw new Error('not opened');
  store = opened.value;
  await side.value.change(demo.people);
  await side.value.close();
  await store.append(demo.records, demo.now);
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('no name, licence or contact of anybody of the invented shelter (Verifies: LOG-R81)', () => {
  it('is in a record, but where somebody signed', async () => {
    expect(secrets.length).toBeGreaterThan(16);
    const records = await store.read();
    expect(records.length).toBeGreaterThan(1500);
    const bare = records.filter((record) => !isSignedDocument(record));
    expect(bare.length).toBeGreaterThan(records.length - 10);
    expect(bare.filter((record) => foundIn(JSON.stringify(record)).length > 0)).toEqual([]);
    // And there it is only who signed.
    const vet = demo.people.find(({ licence }) => licence !== '');
    const signed = records.filter(isSignedDocument).map((record) => foundIn(JSON.stringify(record)));
    expect(new Set(signed.flat())).toEqual(new Set([vet?.name, vet?.licence]));
  });

  it('is in a row of a read table', async () => {
    for (const table of tableNames) {
      const rows = await store.rows(table);
      expect([table, foundIn(JSON.stringify(rows))]).toEqual([table, []]);
    }
    expect((await store.rows('people')).length).toBe(demo.people.length);
  });

  it('is in a flag; said aloud, a flag has the name that is known there, and plain words where it is not', () => {
    const flags = flagsIn(buildWorld(demo.records), demo.today);
    expect(flags.length).toBeGreaterThan(5);
    expect(foundIn(JSON.stringify(flags))).toEqual([]);
    const one: Said = { say: 'server.problem.person-not-active', with: { name: { person: demo.people[0]?.id ?? '' } } };
    const zone = demo.zone;
    expect(sayFor({ language: english, zone, names: namesGiven(demo.people) })(one)).toContain(demo.people[0]?.name);
    expect(sayFor({ language: english, zone })(one)).toContain('a former team member');
  });

  it('is in the export, or in the copy of the records', async () => {
    const lines: string[] = [];
    for await (const line of exportRecords(store, () => undefined)) lines.push(line);
    const bare = lines.filter((line) => !/"kind":"(document-signed|formulary-filed)"/.test(line));
    expect(foundIn(bare.join(''))).toEqual([]);
    await store.backUp(join(folder, 'copy.sqlite'));
    const others = demo.people.filter(({ licence }) => licence === '').map(({ name }) => name);
    for (const file of readdirSync(folder).filter((name) => name !== privateFile)) {
      const bytes = readFileSync(join(folder, file), 'latin1');
      expect([file, others.filter((name) => bytes.includes(name))]).toEqual([file, []]);
      expect([file, bytes.includes('inkwell-lane.example')]).toEqual([file, false]);
    }
    expect(readFileSync(join(folder, privateFile), 'latin1')).toContain(others[0]);
  });

  it('is in the stream of events, or in what anybody may ask of the records', async () => {
    const side = openPrivateSide(folder);
    if (!side.ok) throw new Error('not opened');
    const signIns = memorySignIns();
    const app = await createApp({ store, people: side.value, signIns, clock: () => demo.now, version: 'x' });
    const cookie = cookieOf(signIns, demo.people[0]?.id ?? '', demo.now);
    const base = await app.listen({ port: 0, host: '127.0.0.1' });
    const ended = new AbortController();
    const stream = await fetch(`${base}/api/events`, { signal: ended.signal, headers: { cookie } });
    const first = await stream.body?.getReader().read();
    const event = new TextDecoder().decode(first?.value as Uint8Array);
    expect(event).toContain('event: head');
    expect(foundIn(event)).toEqual([]);
    const state = await (await fetch(`${base}/api/shelter`)).json();
    const { protocol: _protocol, formulary: _formulary, ...rest } = state as Record<string, unknown>;
    expect(foundIn(JSON.stringify(rest))).toEqual([]);
    ended.abort();
    await app.close();
    await side.value.close();
  });
});

describe('two who know different people (Verifies: LOG-R81)', () => {
  afterAll(() => setNames(noNames));
  it('work out the same rows and flags, byte for byte: no fold asks for a name', () => {
    const workedOut = (names: Names): string => {
      setNames(names);
      // Read anew, so that nothing worked out before is remembered.
      const records = structuredClone(demo.records);
      const world = project(emptyProjection, records as never).world;
      const tables = [...Object.values(rowsOf(world, demo.today))].map((rows) => [...rows.values()]);
      return JSON.stringify([tables, flagsIn(world, demo.today)]);
    };
    const others = new Map(demo.people.map(({ id }) => [id as string, { name: `Other ${id}`, licence: 'other' }]));
    const bare = workedOut(noNames);
    expect(bare.length).toBeGreaterThan(100_000);
    expect(workedOut(namesGiven(demo.people)) === bare).toBe(true);
    expect(workedOut(others) === bare).toBe(true);
  });
});
