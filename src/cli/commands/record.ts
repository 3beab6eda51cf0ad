import { v7 } from 'uuid';
import type { Names } from '../../core/people.js';
import { type Said, said } from '../../core/said.js';
import { admission } from '../../log/admit.js';
import { currentVersion } from '../../log/kinds/index.js';
import { signersOf } from '../../log/private-side.js';
import { isKind, type LogRecord } from '../../log/record.js';
import type { LogStore } from '../../log/store.js';
import type { Person } from '../../log/views/shelter.js';
import type { World } from '../../log/views/world.js';
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
    return withWorld(given, async (world, store, people) => {
      const name = given.text('by');
      const person = name === null ? null : personCalled(world.shelter, name);
      if (isExit(person)) return person;
      const lines: JsonLine[] = [];
      for await (const burst of jsonLines()) lines.push(...burst);
      const answers = await takeLines(
        lines,
        person,
        { world, signers: signersOf(people) },
        store,
        new Date().toISOString(),
      );
      for (const answer of answers) tellAnswer(answer);
      return { code: answers.some(({ why }) => why !== null) ? 1 : 0 };
    });
  },
};

/** What became of one line; `why` is null when it is in the log now. */
export interface LineAnswer {
  readonly line: number;
  readonly id: string | null;
  readonly outcome: 'stored' | 'already-there' | 'refused';
  readonly seq: number | null;
  readonly why: Said | null;
}

/** Takes the lines in: first the answers to those turned away, then to those kept. */
export async function takeLines(
  lines: readonly JsonLine[],
  person: Person | null,
  { world, signers }: { readonly world: World; readonly signers: Names },
  store: LogStore,
  now: string,
): Promise<readonly LineAnswer[]> {
  const raws = lines.map(({ value }) => value);
  const admit = await admission(world.shelter, signers, raws, (ids) => store.read({ ids }));
  const complete = completing(person, world, now);
  const admitted: { readonly line: number; readonly record: LogRecord }[] = [];
  const answers: LineAnswer[] = [];
  let stamped = 0;
  for (const { line, value } of lines) {
    const raw = complete(value, stamped);
    const found = value === undefined ? { ok: false as const, why: said('cli.record.no-json') } : admit(raw);
    if (found.ok) {
      admitted.push({ line, record: found.record });
      if (raw !== value) stamped++;
    } else answers.push(refused(line, null, found.why));
  }
  const batch = admitted.map((one) => one.record);
  const kept = batch.length === 0 ? [] : await store.append(batch, now);
  for (const [at, { id, outcome, seq }] of kept.entries()) {
    const line = admitted[at]?.line ?? 0;
    if (outcome === 'conflict') answers.push(refused(line, id, said('server.problem.record-conflict')));
    else answers.push({ line, id, outcome, seq, why: null });
  }
  return answers;
}

const refused = (line: number, id: string | null, why: Said): LineAnswer => ({
  line,
  id,
  outcome: 'refused',
  seq: null,
  why,
});

function tellAnswer({ why, ...answer }: LineAnswer): void {
  tell(JSON.stringify(why === null ? answer : { ...answer, say: why.say, words: say(why) }));
  if (why !== null) complain(said('cli.record.line', { line: answer.line, why }));
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
