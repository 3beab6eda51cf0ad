import type { Animal, RunReading, TestRun } from '../../../core/animal/animal.js';
import { type Said, said } from '../../../core/said.js';
import { type Raised, writerOf } from '../../flag.js';
import type { LogRecord } from '../../record.js';
import { marksMean } from '../../views/blood-tests/test-runs.js';
import type { Ground } from '../../views/ground.js';

/** Two readings of one kit that do not say the same: both are named, with who and when, to those who decide. */
export function differingReadings(animal: Animal, records: readonly LogRecord[], ground: Ground): Raised[] {
  return animal.runs.flatMap((run): Raised[] => {
    const pair = differing(ground, run);
    if (pair === null) return [];
    const [one, other, last] = pair;
    const record = records.find(({ id }) => id === last.record);
    if (record === undefined) return [];
    const first = readingSaid(one);
    const second = readingSaid(other);
    return [
      {
        key: `readings-differ:${last.record}`,
        code: 'readings-differ',
        severity: 'stop',
        animal: animal.id,
        about: last.record,
        raisedAt: last.at,
        for: ['supervisor', 'medical'],
        why: said('flag.readings-differ', { animal: animal.name || animal.label, first, second }),
        by: last.by,
        ...writerOf(record),
        closedBy: 'medical',
      },
    ];
  });
}

/** The reading that stands, the last one that says otherwise, and the later of the two. */
function differing(ground: Ground, run: TestRun): readonly [RunReading, RunReading, RunReading] | null {
  const readings = run.readings ?? [];
  if (readings.length < 2) return null;
  const meaning = (one: RunReading): string | null => marksMean(run, one, ground);
  const stands = readings.find(({ record }) => record === run.readRecord) ?? readings.at(-1);
  if (stands === undefined || meaning(stands) === null) return null;
  const other = readings.findLast((one) => meaning(one) !== null && meaning(one) !== meaning(stands));
  if (other === undefined) return null;
  return [stands, other, readings.indexOf(stands) > readings.indexOf(other) ? stands : other];
}

const readingSaid = ({ by, at, seen, result }: RunReading): Said => {
  const faint = result === 'reactive' && Object.values(seen).includes('faint');
  const what = said(faint ? 'round.result.reactive-faint' : `round.result.${result}`);
  return said('flag.readings-differ.one', { person: { person: by }, at: { instant: at }, result: what });
};
