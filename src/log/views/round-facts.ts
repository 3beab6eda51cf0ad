import type { Clocked } from '../../core/clocked.js';
import { type PersonId, RoundId } from '../../core/ids.js';
import type { BodyOf } from '../kinds/index.js';
import { type LogRecord, subjectOf } from '../record.js';

/** A round as its own records tell it; what happened to the animals is added by `roundView`. */
export interface RoundFacts {
  readonly id: RoundId;
  readonly plan: BodyOf<'round-planned'>;
  readonly plannedAt: string;
  readonly plannedBy: PersonId;
  readonly begunAt: string | null;
  /** The same instant with the clock it was taken from. */
  readonly begun: Clocked | null;
  readonly treater: PersonId;
  readonly holder: PersonId | null;
  readonly visits: readonly Visit[];
  readonly gloves: readonly GloveChange[];
  readonly handedBack: (BodyOf<'handed-back'> & { readonly at: string; readonly by: PersonId }) | null;
  readonly accepted: { readonly at: string; readonly by: PersonId; readonly note: string } | null;
}

export interface Visit {
  readonly section: string;
  readonly enteredAt: string;
  readonly worn: readonly string[];
  readonly wentBackBecause: string;
  readonly record: LogRecord['id'];
  readonly leftAt: string | null;
  /** The same instant with the clock it was taken from. */
  readonly left: Clocked | null;
  readonly cleaned: readonly string[];
}

/** Fresh gloves, as one phone of the team noted them. */
export type GloveChange = BodyOf<'gloves-changed'> & { readonly at: string };

type RoundRecord = LogRecord<
  | 'round-planned'
  | 'round-begun'
  | 'team-changed'
  | 'section-entered'
  | 'section-left'
  | 'gloves-changed'
  | 'handed-back'
  | 'hand-back-accepted'
>;

/** Take one record of a round into the rounds known so far; what is about a round nobody planned is left out. */
export function foldRoundFacts(
  rounds: Map<RoundId, RoundFacts>,
  record: RoundRecord,
  timed: (record: LogRecord) => Clocked,
): void {
  const id = RoundId.parse(subjectOf(record).id);
  const at = record.happenedAt;
  if (record.kind === 'round-planned') {
    const plan = record.body;
    rounds.set(id, {
      id,
      plan,
      plannedAt: at,
      plannedBy: record.by,
      begunAt: null,
      begun: null,
      treater: plan.treater,
      holder: plan.holder,
      visits: [],
      gloves: [],
      handedBack: null,
      accepted: null,
    });
    return;
  }
  const round = rounds.get(id);
  if (round === undefined) return;
  switch (record.kind) {
    case 'round-begun':
      rounds.set(id, { ...round, begunAt: round.begunAt ?? at, begun: round.begun ?? timed(record) });
      break;
    case 'team-changed':
      rounds.set(id, { ...round, treater: record.body.treater, holder: record.body.holder });
      break;
    case 'section-entered': {
      const { section, worn, wentBackBecause } = record.body;
      const visit: Visit = {
        section,
        enteredAt: at,
        worn,
        wentBackBecause,
        record: record.id,
        leftAt: null,
        left: null,
        cleaned: [],
      };
      rounds.set(id, { ...round, visits: [...round.visits, visit] });
      break;
    }
    case 'section-left': {
      const { section, cleaned } = record.body;
      const last = round.visits.findLastIndex((visit) => visit.section === section && visit.leftAt === null);
      const visits = round.visits.map((visit, index) =>
        index === last ? { ...visit, leftAt: at, left: timed(record), cleaned } : visit,
      );
      rounds.set(id, { ...round, visits });
      break;
    }
    case 'gloves-changed':
      rounds.set(id, { ...round, gloves: [...round.gloves, { ...record.body, at }] });
      break;
    case 'handed-back':
      rounds.set(id, { ...round, handedBack: { ...record.body, at, by: record.by } });
      break;
    case 'hand-back-accepted':
      rounds.set(id, { ...round, accepted: { at, by: record.by, note: record.body.note } });
      break;
  }
}
