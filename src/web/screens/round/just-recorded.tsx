import { Link } from 'wouter';
import type { AnimalStop } from '../../../log/views/round.js';
import { say } from '../../../words/say.js';
import { State } from '../../parts/state.js';
import { inOneLine, onRecord } from './on-record.js';
import { recordedPath } from './paths.js';
import { useRound } from './use-round.js';

/** What was recorded last on this animal, and the way to put it right; the whole list with `all`. */
export function JustRecorded({ stop, all = false }: { stop: AnimalStop; all?: boolean }) {
  const { world, round } = useRound();
  const records = onRecord(world, stop.animal.id, round).filter((record) => record.kind !== 'animal-identified');
  const [last] = records;
  if (last === undefined) return null;
  return (
    <Link href={recordedPath(round, stop.animal.id)} className="just-recorded">
      {(all ? records : [last]).map((record) => (
        <span key={record.id} className="block">
          <State tone="done">
            {say('round.recorded.at', { at: { instant: record.happenedAt }, what: inOneLine(record, world) })}
          </State>
        </span>
      ))}
      <span className="more">{say('round.recorded.open', { count: records.length })}</span>
    </Link>
  );
}
