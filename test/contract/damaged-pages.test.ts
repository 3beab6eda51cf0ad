import { rmSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Answer, createClient } from '../../src/api/client.js';
import type { LogRecord } from '../../src/log/record.js';
import { type LogStore, StoreTrouble } from '../../src/log/store.js';
import { createApp } from '../../src/server/app.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { tableNames } from '../../src/store/read-tables.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { verifyStore } from '../../src/store/verify.js';
import { busyLog } from '../support/busy-log.js';
import { storeToDamage, ways } from '../support/damaged-store.js';
import { at } from '../support/log.js';
import { weighed } from '../support/shelter-log.js';
import { cookieOf, wasSignedIn } from '../support/signed-in.js';

/*
 * For each page of a small store, damaged in turn: that is told, or the page proves to be unused; and nothing that anybody
 * is answered meanwhile is untrue. What can be saved of it is the matter of salvage.test.ts.
 */
const noon = at('2026-03-02', '12:00');
const log = busyLog();
const [later] = log.add([weighed(4, 555, noon)]) as [LogRecord];
let small: Awaited<ReturnType<typeof storeToDamage>>;
let right: Answers;
beforeAll(async () => {
  small = await storeToDamage(
    log.records.filter((record) => record !== later),
    noon,
  );
  const told = await whatIsSaid(small.damaged(1, Buffer.alloc(0)));
  if (!told.opened) throw new Error('the whole store does not open');
  right = told.answers;
  expect(told).toMatchObject({ whole: true, kept: true });
  expect(Object.values(right).filter(isTrouble)).toEqual([]);
});
afterAll(() => small.dispose());

type Answers = Readonly<Record<string, unknown>>;
interface Trouble {
  readonly trouble: string;
}
const isTrouble = (answer: unknown): answer is Trouble =>
  typeof answer === 'object' && answer !== null && 'trouble' in answer;

type Said =
  | { readonly opened: false; readonly why: string }
  | {
      readonly opened: true;
      readonly answers: Answers;
      readonly whole: boolean;
      readonly content: unknown;
      /** Whether one more record was kept. */
      readonly kept: boolean;
    };

/** Everything that a store in a folder says, by the server and by itself. */
async function whatIsSaid(folder: string): Promise<Said> {
  const opened = await openStore(folder);
  if (!opened.ok) return { opened: false, why: opened.why.say };
  const store = opened.value;
  try {
    const signIns = memorySignIns();
    const app = await createApp({ store, signIns, clock: () => noon, version: 'test' });
    const cookie = cookieOf(signIns, 'sol', noon);
    wasSignedIn(signIns, 'ines');
    const client = createClient(
      async (url, { method, headers, body }) => {
        const sent = {
          method: method as 'GET',
          url,
          headers: { ...headers, cookie },
          ...(body === undefined ? {} : { payload: body }),
        };
        const answer = await app.inject(sent);
        return { status: answer.statusCode, text: async () => answer.body };
      },
      '',
      { now: () => noon },
    );
    const pages = [];
    for (let after = 0; after < log.records.length; after += 10) pages.push(after);
    const answers: Record<string, unknown> = {
      shelter: answerOf(await client.shelter()),
      due: answerOf(await client.due({ status: undefined })),
      another: answerOf(await client.due({ on: '2026-04-02' })),
      animals: answerOf(await client.animals({ inCare: 'all' })),
      flags: answerOf(await client.flags()),
    };
    for (const after of pages) answers[`records after ${after}`] = answerOf(await client.records({ after, limit: 10 }));
    const whole = (await verifyStore(store)).whole;
    const content = whole ? await contentOf(store) : null;
    const kept = await client.append({ records: [later] });
    if (!kept.ok) expect(kept.problem?.detail).toMatch(/\w.*\.$/);
    await app.close();
    return { opened: true, answers, whole, content, kept: kept.ok && kept.value.outcomes[0]?.outcome === 'stored' };
  } catch (error) {
    if (!(error instanceof StoreTrouble)) throw error;
    return { opened: false, why: error.why.say };
  } finally {
    await store.close();
  }
}

function answerOf(answer: Answer<unknown>): unknown {
  return answer.ok ? answer.value : { trouble: answer.problem?.detail ?? answer.code };
}

async function contentOf(store: LogStore): Promise<unknown> {
  const tables = await Promise.all(tableNames.map(async (table) => [table, await store.rows(table)]));
  return { records: await store.read(), head: await store.head(), tables: Object.fromEntries(tables) };
}

/** What is answered is right, or it says that something is wrong: in one sentence, or about the very records. */
function isTrue(name: string, answer: unknown): boolean {
  if (isTrouble(answer)) return /^[A-Z].*\.$/.test(answer.trouble);
  const should = right[name] as Record<string, unknown>;
  const given = answer as Record<string, unknown>;
  const { damaged, records, told, unreadable, ...others } = given;
  const { records: all, told: _told, unreadable: _none, ...otherwise } = should;
  if (Array.isArray(told) && told.length > 0) {
    return Object.entries(otherwise).every(([field, value]) => isPartOf(others[field], value));
  }
  if (typeof unreadable === 'number' && unreadable > 0) return true;
  if (!Array.isArray(records)) return sameText(given, should);
  const named = new Set(((damaged ?? []) as { seq: number }[]).map(({ seq }) => seq));
  const left = (all as { seq: number }[]).filter(({ seq }) => !named.has(seq));
  return sameText(records, left) && named.size + left.length === (all as unknown[]).length;
}
/** The same, or with something left out of it. */
const isPartOf = (given: unknown, should: unknown): boolean =>
  given === null ||
  sameText(given, should) ||
  (Array.isArray(given) && Array.isArray(should) && given.every((one) => should.some((other) => sameText(one, other))));
const sameText = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

describe('each page of a store, damaged in turn (Verifies: LOG-R118)', () => {
  it.each(Object.entries(ways))('%s: is told or unused, and nothing untrue is said', async (_way, bytes) => {
    const whole = await contentIn(small.whole);
    const seen = { refused: 0, told: 0, unused: [] as number[] };
    for (let page = 1; page <= small.pages; page += 1) {
      const folder = small.damaged(page, bytes(page));
      const said = await whatIsSaid(folder);
      rmSync(folder, { recursive: true });
      if (!said.opened) {
        expect(said.why, `page ${page}`).toMatch(/^server\.store\.(damaged|not-a-store|changed-by-hand)$/);
        seen.refused += 1;
        continue;
      }
      // Flags are worked out from the documents in force: when one of them is lost, every page says so beside them.
      const isSaid = ((said.answers.shelter as { told?: unknown[] }).told ?? []).length > 0;
      for (const [name, answer] of Object.entries(said.answers)) {
        if (name === 'flags' && isSaid) continue;
        expect(isTrue(name, answer), `page ${page}: ${name} ${JSON.stringify(answer).slice(0, 400)}`).toBe(true);
      }
      if (said.whole) {
        expect(said.content, `page ${page}`).toEqual(whole);
        seen.unused.push(page);
      } else seen.told += 1;
    }
    expect(seen.refused + seen.told).toBeGreaterThan(70);
    // The pages that a table was taken off again.
    expect(seen.unused.length).toBeGreaterThan(0);
    expect(seen.unused.length).toBeLessThan(8);
  });
});

async function contentIn(folder: string): Promise<unknown> {
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  const content = await contentOf(opened.value);
  await opened.value.close();
  return content;
}
