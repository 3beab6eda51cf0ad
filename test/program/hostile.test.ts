import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { draft, type LogRecord } from '../../src/log/record.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { at } from '../support/log.js';
import { shelterLog, weighed } from '../support/shelter-log.js';
import { commandLine, jsonOf } from './support/command-line.js';
import { asking, clientOf, requireBuilt, start, value } from './support/server.js';

const noon = at('2026-03-02', '12:00');
const { run } = commandLine();
beforeAll(requireBuilt);

async function shelterFolder() {
  const data = mkdtempSync(join(tmpdir(), 'roundhand-hostile-'));
  const log = shelterLog(2);
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(log.records, noon);
  await opened.value.close();
  const signature = log.records.find(({ kind }) => kind === 'document-signed') as LogRecord;
  return { data, log, signature };
}

/** By a volunteer: the signature taken back, with decoys of its number, and by way of another subject. */
function attacks({ log, signature }: Awaited<ReturnType<typeof shelterFolder>>): unknown[][] {
  const takeBack = (subject: string) =>
    log.add([draft('record-withdrawn', subject, { reason: 'no' }, noon, signature.id)], 'ines');
  const [good] = log.add([weighed(1, 500, noon)], 'ines') as [LogRecord];
  return [
    takeBack(signature.subject),
    [{ id: signature.id, kind: 'animal-weighed' }, ...takeBack(signature.subject)],
    [{ ...good, id: signature.id }, ...takeBack(signature.subject)],
    takeBack('round:none'),
    log.add([draft('round-begun', 'round:none', {}, noon, signature.id)], 'ines'),
    log.add([draft('round-begun', signature.subject, {}, noon, signature.id)], 'ines'),
  ];
}

describe('the protocol stays signed, whatever a volunteer sends (Verifies: LOG-R13, LOG-R15)', () => {
  it('to the built server', async () => {
    const there = await shelterFolder();
    const server = start(there.data);
    const client = clientOf((await server.ready) ?? '', 'ines');
    for (const records of attacks(there)) {
      const { outcomes } = value(await client.append({ records }));
      expect(outcomes.every(({ outcome }) => outcome === 'refused' || outcome === 'conflict')).toBe(true);
      expect(outcomes.every(({ problem }) => /\w.*\.$/.test(problem?.detail ?? ''))).toBe(true);
      expect(value(await client.shelter())).toMatchObject({ protocol: { id: 'starter' } });
    }
    server.child.kill('SIGTERM');
    await server.ended;
    rmSync(there.data, { recursive: true });
  });

  it('to the built command line', async () => {
    const there = await shelterFolder();
    for (const records of attacks(there)) {
      const ended = await run(['record', '--data', there.data], records.map((one) => JSON.stringify(one)).join('\n'));
      expect([ended.code, new Set(jsonOf(ended.out).map(({ outcome }) => outcome))]).toEqual([1, new Set(['refused'])]);
    }
    const due = await run(['due', '--data', there.data]);
    expect([due.code, due.out.includes('No protocol')]).toEqual([0, false]);
    rmSync(there.data, { recursive: true });
  });
});

describe('a record about a name without an end', () => {
  it('fails nothing but itself (Verifies: LOG-R12)', async () => {
    const { data, log } = await shelterFolder();
    const server = start(data);
    const client = clientOf((await server.ready) ?? '', 'ines');
    const [counted, seen] = ['lot', 'animal'].map((type) => `${type}:${'x'.repeat(90)}`);
    const [good, lot, animal] = log.add([weighed(1, 500, noon), weighed(1, 501, noon), weighed(1, 502, noon)], 'ines');
    const records = [
      { ...lot, kind: 'lot-counted', subject: counted, body: { pieces: 1 } },
      { ...animal, subject: seen },
      good,
    ];
    const { outcomes } = value(await client.append({ records }));
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['refused', 'refused', 'stored']);
    server.child.kill('SIGTERM');
    await server.ended;
    rmSync(data, { recursive: true });
  });
});

describe('a record nested too deep (Verifies: LOG-R16)', () => {
  const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`;

  it('is turned away with its sentence, and the others of its batch come in', async () => {
    const { data, log } = await shelterFolder();
    const server = start(data);
    const url = (await server.ready) ?? '';
    const send = async (body: string) =>
      fetch(`${url}/api/records`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...asking(url, 'ines') },
        body,
      });
    const [first, bad, last] = log
      .add([500, 501, 502].map((grams) => weighed(1, grams, noon)))
      .map((one) => JSON.stringify(one));
    const spoilt = bad?.replace('"entered":"501 g"', `"entered":${deep}`);
    const answer = await send(`{"records":[${[first, spoilt, deep, last].join(',')}]}`);
    const { outcomes } = (await answer.json()) as {
      outcomes: { outcome: string; problem: { detail: string } | null }[];
    };
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['stored', 'refused', 'refused', 'stored']);
    expect(outcomes[1]?.problem?.detail).toContain('more than 100 levels deep');
    const whole = await send(`{"records":${deep}}`);
    expect([200, 400]).toContain(whole.status);
    expect((await send(deep)).status).toBe(400);
    const lines = [first, spoilt].join('\n');
    server.child.kill('SIGTERM');
    expect(await server.ended).toMatchObject({ code: 0 });
    const ended = await run(['record', '--data', data], lines);
    expect(jsonOf(ended.out).map(({ outcome }) => outcome)).toEqual(['refused', 'already-there']);
    rmSync(data, { recursive: true });
  });
});
