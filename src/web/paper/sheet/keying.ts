import type { Outcome } from '../../../core/said.js';
import { doneBy, identifiedOnPaper, type PaperTeam } from '../../../log/commands/paper.js';
import type { Draft } from '../../../log/record.js';
import { effective } from '../../../log/views/effective.js';
import type { AnimalStop, RoundLine, RoundView } from '../../../log/views/round/round.js';
import type { World } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import type { Intent } from '../../parts/record-sheet.js';

/** One line of a sheet while it is being keyed in. */
export interface Keying {
  readonly view: RoundView;
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  /** Null until somebody has said who did it. */
  readonly team: PaperTeam | null;
  /** What the times begin with. */
  readonly start: string;
  readonly onKept: () => void;
}

/**
 * What a line would record, in the names of those who did it. `times` are all that were typed; one that lies ahead of
 * now was misread. With `touched`, the animal was in somebody's hands.
 */
export function onSheet(
  { view, stop, team }: Keying,
  world: World,
  times: readonly string[],
  what: Outcome<Draft[]> | readonly Draft[],
  touched = true,
): Intent {
  if (team === null) return { missing: say('ribbon.key-in.needs-who') };
  if (times.some((at) => at > now())) return { missing: say('ribbon.key-in.later-than-now') };
  if ('ok' in what && !what.ok) return what;
  const drafts = 'ok' in what ? what.value : what;
  const [first] = drafts;
  if (first === undefined) return { missing: say('parts.records-nothing-yet') };
  const own = effective(world.bySubject.get(`animal:${stop.animal.id}`) ?? []);
  const identified = touched ? identifiedOnPaper(stop.animal.id, own, view.facts.id, first.happenedAt) : [];
  return doneBy([...identified, ...drafts], team);
}
