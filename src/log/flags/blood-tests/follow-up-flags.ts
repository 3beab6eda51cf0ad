import type { Animal } from '../../../core/animal/animal.js';
import { type FollowUp, longestPlan_days } from '../../../core/animal/follow-up.js';
import { type Said, said } from '../../../core/said.js';
import { aboutAnimal, type Own, type Raised, type ToldCode, writerOf } from '../../flag.js';
import type { LogRecord } from '../../record.js';
import { differingResults } from '../../views/blood-tests/followed-up.js';
import { isMedical } from '../../views/documents/ground-on.js';
import type { Ground } from '../../views/ground.js';

/**
 * Words about a reactive test that settle nothing, results of it that differ, and those that others than the medical team
 * wrote down on its word. Only the medical team closes any.
 */
export function followUpFlags(
  animal: Animal,
  records: readonly LogRecord[],
  ground: Ground,
  standing: readonly LogRecord[],
): Raised[] {
  const doubtful = animal.followUps.flatMap(({ record: id, doubt, says, person }): Raised[] => {
    const record = standing.find((one) => one.id === id);
    if (record === undefined || doubt === undefined || doubt === 'differs' || doubt === 'replaced') return [];
    const values = { person: { person }, date: { date: says.on }, days: longestPlan_days };
    const reason = said(`flag.follow-up-doubtful.${doubt}`, values);
    return [flagOf('follow-up-doubtful', record, { reason })];
  });
  const schedules = [...new Set(animal.followUps.map(({ schedule }) => schedule))];
  const differing = schedules.flatMap((schedule): Raised[] => {
    const two = differingResults(records, animal.runs, ground, schedule);
    if (two === null) return [];
    const [first, second] = two;
    return [flagOf('results-differ', second, { first: wordSaid(first.body), second: wordSaid(second.body) })];
  });
  const told = standing.flatMap((record): Raised[] => {
    if (record.kind !== 'test-followed-up' || isMedical(ground, record)) return [];
    const word = animal.followUps.find((one) => one.record === record.id);
    // One that settles nothing, or differs from another, is told already.
    if (word === undefined || word.doubt !== undefined) return [];
    const values = { by: { person: record.writtenBy ?? record.by }, word: wordSaid(record.body) };
    return [{ ...flagOf('follow-up-told', record, values), severity: 'attention', for: ['medical'] }];
  });
  return [...doubtful, ...differing, ...told];

  function flagOf<C extends ToldCode>(code: C, record: LogRecord, ...own: Own<C>): Raised {
    return {
      ...aboutAnimal(code, animal.name, record.id, own),
      severity: 'stop',
      animal: animal.id,
      about: record.id,
      raisedAt: record.happenedAt,
      for: ['medical', 'supervisor'],
      by: record.by,
      ...writerOf(record),
      closedBy: 'medical',
    };
  }
}

/** What a word about a reactive test says, and whose it is. */
export function wordSaid({ says, person: id }: Pick<FollowUp, 'says' | 'person'>): Said {
  const person = { person: id };
  return says.is === 'plan'
    ? said('flag.follow-up.plan', { what: says.what, date: { date: says.on }, person })
    : said(`flag.follow-up.${says.outcome}`, { method: says.method, date: { date: says.on }, person });
}
