import type { Animal } from '../../core/animal/animal.js';
import { lampCode } from '../../core/animal/lamp.js';
import type { RecordId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import type { LogRecord } from '../record.js';
import { inOrderOfSaying, isLater, rootOf } from './effective.js';
import { type Raised, writerOf } from './flag.js';
import type { Ground } from './ground.js';
import { isMedical } from './ground-on.js';
import { hasUncountedMark, marksReactive } from './mark-flags.js';

/** A finding that keeps an animal apart, and the record by which it no longer stands. */
export interface TakenBack {
  readonly is: 'reading' | 'glow';
  readonly found: LogRecord;
  readonly taker: LogRecord;
  readonly key: string;
}

/**
 * Findings that were withdrawn, corrected away or written over by somebody who is not of the medical team. Looks at every
 * record and not only at those that stand: what was seen once is not settled by a tap at the desk.
 */
export function takenBackOf(animal: Animal, records: readonly LogRecord[], ground: Ground): TakenBack[] {
  const findings = records.filter((record) => isFinding(ground, records, record));
  if (findings.length === 0) return [];
  const find = (id: RecordId) => records.find((record) => record.id === id);
  const roots = [...new Set(findings.map((record) => rootOf(record, find)))];
  return roots.flatMap((root): TakenBack[] => {
    const corrections = records.filter((record) => record !== root && rootOf(record, find) === root);
    const versions = [root, ...inOrderOfSaying(corrections)];
    const last = versions.findLastIndex((record) => findings.includes(record));
    const found = versions[last];
    if (found === undefined || stands(ground, animal, found, last === versions.length - 1)) return [];
    const after = versions[last + 1];
    const taker = after ?? writtenOver(records, found, find).find((record) => !isMedical(ground, record));
    if (taker === undefined || isMedical(ground, taker)) return [];
    const is = found.kind === 'test-read' ? 'reading' : 'glow';
    return [{ is, found, taker, key: `${is}-taken-back:${taker.id}` }];
  });
}

function isFinding(ground: Ground, records: readonly LogRecord[], record: LogRecord): boolean {
  if (record.kind === 'observation-noted') {
    const { code, answer } = record.body;
    return code === lampCode && (answer === 'glow' || answer === 'unsure');
  }
  if (record.kind !== 'test-read') return false;
  const { run, seen } = record.body;
  const kits = records.flatMap((one) =>
    one.kind === 'test-started' && one.body.run === run ? [one.body.kitType as string] : [],
  );
  return (kits.length === 0 ? [null] : kits).some((kit) => marksReactive(ground, kit, seen));
}

/** Whether what was found is still said of the animal, so that its own flag speaks for it. */
function stands(ground: Ground, animal: Animal, found: LogRecord, isLast: boolean): boolean {
  if (found.kind !== 'test-read') return isLast;
  const run = animal.runs.find((one) => one.run === found.body.run);
  return run !== undefined && (run.result === 'reactive' || hasUncountedMark(ground, run));
}

/** What else was written about the run afterwards: another reading, giving it up, or its start or draw put right. */
function writtenOver(
  records: readonly LogRecord[],
  found: LogRecord,
  find: (id: RecordId) => LogRecord | undefined,
): LogRecord[] {
  const run = runOf(found);
  return records
    .filter((record) => {
      if (record === found || runOf(rootOf(record, find)) !== run) return false;
      return record.corrects !== undefined || record.kind === 'test-read' || record.kind === 'test-abandoned';
    })
    .sort((a, b) => (isLater(a, b) ? -1 : 1));
}

const runOf = ({ body }: LogRecord): string | null => ('run' in body ? body.run : null);

/** Closed by the medical team's answer and by nothing else. */
export function takenBackFlags(animal: Animal, records: readonly LogRecord[], ground: Ground): Raised[] {
  return takenBackOf(animal, records, ground).map(
    ({ is, found, taker, key }): Raised => ({
      key,
      code: `${is}-taken-back`,
      severity: 'stop',
      animal: animal.id,
      about: found.id,
      raisedAt: taker.recordedAt,
      for: ['medical', 'supervisor'],
      why: said(`flag.${is}-taken-back`, {
        animal: animal.name,
        person: { person: taker.by },
        on: { instant: found.happenedAt },
      }),
      by: taker.by,
      ...writerOf(taker),
      closedBy: 'medical',
    }),
  );
}
