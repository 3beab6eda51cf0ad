import { v7 } from 'uuid';
import { type Said, said } from '../../core/said.js';
import { currentVersion } from '../../log/kinds/index.js';
import type { LogRecord } from '../../log/record.js';
import { isKind } from '../../log/record.js';
import type { Person } from '../../log/views/shelter.js';
import type { World } from '../../log/views/world.js';
import { type Corrected, gate } from '../../server/admit.js';
import { isRefusal } from '../../server/refusal.js';
import type { SqliteStore } from '../../store/sqlite/open.js';
import { say } from '../../words/say.js';
import { nextSeqOf, thisDevice } from '../append.js';
import { type Command, dataOption } from '../command.js';
import { withWorld } from '../data-folder.js';
import { isExit, misused } from '../exit.js';
import { personCalled } from '../find.js';
import { complain, tell } from '../output.js';
import { type JsonLine, jsonLines } from '../read-lines.js';

/**
 * Append records given as JSON lines on stdin: whole records as `export` writes them, or, with `--by`, lines with only
 * kind, subject, body and happenedAt, which are stamped here. Each line is answered on stdout; all that may come in come
 * in as one batch. A line that is turned away changes nothing for the others.
 */
export const record: Command = {
  name: 'record',
  options: { ...dataOption, by: { value: 'NAME' } },
  example: 'record --by Ines < records.jsonl',
  run: (given) => {
    if (process.stdin.isTTY) return Promise.resolve(misused('cli.needs-stdin', { command: 'record' }));
    return withWorld(given, async (world, store) => {
      const name = given.text('by');
      const person = name === null ? null : personCalled(world.shelter, name);
      if (isExit(person)) return person;
      const lines: JsonLine[] = [];
      for await (const burst of jsonLines()) lines.push(...burst);
      return { code: (await take(lines, person, world, store)) === 0 ? 0 : 1 };
    });
  },
};

/** Takes the lines in; gives how many were turned away. */
async function take(
  lines: readonly JsonLine[],
  person: Person | null,
  world: World,
  store: SqliteStore,
): Promise<number> {
  const now = new Date().toISOString();
  const seen: unknown[] = [];
  const admit = gate(world.shelter, correctedIn(seen, store));
  const complete = completing(person, world, now);
  const admitted: { line: number; record: LogRecord }[] = [];
  let away = 0;
  let stamped = 0;
  for (const { line, value } of lines) {
    const raw = complete(value, stamped);
    seen.push(raw);
    const found = value === undefined ? said('cli.record.no-json') : await admit(raw);
    const why: Said | null = isRefusal(found) ? found.why : 'say' in found ? found : null;
    if (why === null) {
      admitted.push({ line, record: found as LogRecord });
      if (raw !== value) stamped++;
    } else {
      away++;
      turnAway(line, null, why);
    }
  }
  const answers =
    admitted.length === 0
      ? []
      : await store.append(
          admitted.map((one) => one.record),
          now,
        );
  for (const [at, { id, outcome, seq }] of answers.entries()) {
    const line = admitted[at]?.line ?? 0;
    if (outcome === 'conflict') {
      away++;
      turnAway(line, id, said('server.problem.record-conflict'));
    } else tell(JSON.stringify({ line, id, outcome, seq }));
  }
  return away;
}

function turnAway(line: number, id: string | null, why: Said): void {
  tell(JSON.stringify({ line, id, outcome: 'refused', seq: null, say: why.say, words: say(why) }));
  complain(said('cli.record.line', { line, why }));
}

/**
 * Gives a line without an envelope one. Only lines that are taken in count up the device's number: a hole in it means a
 * lost record.
 */
function completing(person: Person | null, world: World, now: string): (value: unknown, taken: number) => unknown {
  const device = thisDevice();
  const nextSeq = nextSeqOf(world, device);
  return (value, taken) => {
    if (person === null || typeof value !== 'object' || value === null || 'id' in value) return value;
    const kind = 'kind' in value && typeof value.kind === 'string' ? value.kind : '';
    return {
      happenedAt: now,
      ...value,
      id: v7(),
      shelter: world.shelter.id,
      v: isKind(kind) ? currentVersion(kind) : 1,
      zone: world.shelter.zone,
      recordedAt: now,
      by: person.id,
      device,
      deviceSeq: nextSeq + taken,
    };
  };
}

/** What a correction corrects: on an earlier line, or in the log. */
function correctedIn(raws: readonly unknown[], store: SqliteStore): Corrected {
  return async (record) => {
    for (const raw of raws) {
      if (typeof raw !== 'object' || raw === null || !('id' in raw) || raw.id !== record.corrects) continue;
      return 'kind' in raw ? { kind: String(raw.kind) } : null;
    }
    const about = await store.read({ subject: record.subject });
    return about.find((one) => one.id === record.corrects) ?? null;
  };
}
