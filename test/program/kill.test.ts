import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LogRecord } from '../../src/log/record.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { verifyStore } from '../../src/store/verify.js';
import { seed, times } from '../support/chance.js';
import { at } from '../support/log.js';
import { shelterLog, weighed } from '../support/shelter-log.js';
import { clientOf, type Program, requireBuilt, start, value } from './support/server.js';

/** Enough that no animal gets more records than one has in real life. */
const kittens = 40;
/** How often the server is killed in the middle of its work. */
const kills = times(40, 200);

let data: string;
beforeAll(async () => {
  requireBuilt();
  data = mkdtempSync(join(tmpdir(), 'roundhand-kill-'));
});
afterAll(() => rmSync(data, { recursive: true, force: true }));

/** mulberry32, public domain by its author; the seed is in the name of the test, so that a run can be had again. */
function chance(from: number): () => number {
  let state = from;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

describe('killed in the middle of its work', () => {
  it(`loses no record it has acknowledged, ${kills} times over, and is whole each time (seed ${seed}; Verifies: LOG-R5, LOG-R11)`, async () => {
    const random = chance(seed);
    const log = shelterLog(kittens);
    await setUp(log.records);
    const acknowledged = new Map<string, number>();
    const inDoubt: LogRecord[][] = [];
    let cycles = 0;
    let killedAtWork = 0;
    let inDoubtEver = 0;
    let checkedTo = log.records.length;

    while (cycles < kills) {
      const server = start(data);
      // One in eight is killed while it is still starting.
      if (random() < 0.125) {
        await setTimeout(random() * 300);
        server.child.kill('SIGKILL');
        await server.ended;
        cycles += 1;
        checkedTo = await checkFolder(checkedTo, acknowledged);
        continue;
      }
      const url = await server.ready;
      if (url === null) throw new Error(JSON.stringify(await server.ended));
      const client = clientOf(url, 'ines');

      if (cycles % 8 === 0) expect(value(await clientOf(url, 'sol').verify())).toMatchObject({ whole: true });

      // What was in doubt is sent again: all of a batch is there, or none of it.
      for (const batch of inDoubt.splice(0)) {
        const { outcomes } = value(await client.append({ records: batch }));
        expect(new Set(outcomes.map(({ outcome }) => outcome)).size).toBe(1);
        for (const { id, seq } of outcomes) acknowledged.set(String(id), seq ?? -1);
      }

      const streams = [0, 1].map(async () => {
        for (;;) {
          const batch = log.add(
            Array.from({ length: 1 + Math.floor(random() * 3) }, () =>
              weighed(1 + Math.floor(random() * kittens), 400 + Math.floor(random() * 400), at('2026-03-02')),
            ),
            'ines',
          );
          const answer = await client.append({ records: batch });
          if (!answer.ok) {
            expect(['unreachable', 'not-understood']).toContain(answer.code);
            inDoubt.push(batch);
            inDoubtEver += 1;
            return;
          }
          for (const { id, outcome, seq } of answer.value.outcomes) {
            expect(outcome).toBe('stored');
            acknowledged.set(String(id), seq ?? -1);
          }
          // The log must not grow so long that reading it takes up the test.
          await setTimeout(random() * 25);
        }
      });
      // Until the first append the log is read, so some kills fall there and most between and during appends.
      await setTimeout(random() * 250);
      server.child.kill('SIGKILL');
      expect((await server.ended).signal).toBe('SIGKILL');
      await Promise.all(streams);
      cycles += 1;
      killedAtWork += 1;
      // Every eighth time the next server itself finds the folder as the killed one left it.
      if (cycles % 8 !== 0) checkedTo = await checkFolder(checkedTo, acknowledged);
    }

    const opened = await openStore(data);
    if (!opened.ok) throw new Error(JSON.stringify(opened.why));
    const store = opened.value;
    const kept = new Map((await store.read()).map(({ id, seq }) => [id as string, seq]));
    for (const [id, seq] of acknowledged) expect(kept.get(id), id).toBe(seq);
    expect((await verifyStore(store)).whole).toBe(true);
    await store.close();
    expect(killedAtWork).toBeGreaterThan(kills / 2);
    console.log(
      `${killedAtWork} kills at work, ${inDoubtEver} batches in doubt, ${acknowledged.size} records acknowledged`,
    );
    // The test means nothing when hardly anything was acknowledged.
    expect(acknowledged.size).toBeGreaterThan(kills);
    // Two hundred starts of a program: two minutes on an idle machine of two cores, more on a busy one.
  });

  it('lets two servers on one folder take turns (Verifies: LOG-R9)', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'roundhand-two-'));
    const servers = [start(folder), start(folder)] as const;
    try {
      const [first, second] = await Promise.all(servers.map((server) => server.ready));
      if (first == null || second == null) throw new Error('a server did not start');
      const log = shelterLog(2);
      const opened = await openStore(folder);
      if (!opened.ok) throw new Error(JSON.stringify(opened.why));
      await opened.value.append(log.records, new Date().toISOString());
      await Promise.all(
        [first, second].map(async (url, index) => {
          const client = clientOf(url, 'ines', `phone-${index}`);
          for (let turn = 0; turn < 40; turn += 1) {
            const batch = log.add([weighed(index + 1, 500 + turn, at('2026-03-02'))], 'ines', `phone-${index}`);
            const { outcomes } = value(await client.append({ records: batch }));
            expect(outcomes.map(({ outcome }) => outcome)).toEqual(['stored']);
          }
        }),
      );
      const read = await opened.value.read();
      expect(read.map(({ seq }) => seq)).toEqual(log.records.map((_, index) => index + 1));
      expect((await verifyStore(opened.value)).whole).toBe(true);
      await opened.value.close();
    } finally {
      await Promise.all(servers.map(stopped));
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

async function setUp(records: readonly LogRecord[]): Promise<void> {
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(records, new Date().toISOString());
  await opened.value.close();
}

/**
 * What was acknowledged is there, in its place, and everything fits together. Reads on from where was read last; gives
 * the place reached.
 */
async function checkFolder(from: number, acknowledged: ReadonlyMap<string, number>): Promise<number> {
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  const store = opened.value;
  const there = new Map((await store.read({ after: from })).map(({ id, seq }) => [id as string, seq]));
  for (const [id, seq] of acknowledged) if (seq > from) expect(there.get(id), `${id} at ${seq}`).toBe(seq);
  const report = await verifyStore(store);
  expect(report.whole, JSON.stringify(report)).toBe(true);
  await store.close();
  return report.head.seq;
}

async function stopped(server: Program): Promise<void> {
  server.child.kill('SIGTERM');
  expect(await server.ended).toMatchObject({ code: 0, err: '' });
}
