import { Link } from 'wouter';
import { onRecord, type RoundRecord, wantsAttention } from '../../../log/bedside/on-record.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { recordedPath } from '../../parts/round-paths.js';
import { State } from '../../parts/state.js';
import { useRound } from '../around/use-round.js';
import { inOneLine } from './in-one-line.js';

/** What was recorded last on this animal, and the way to put it right; the whole list with `all`. */
export function JustRecorded({ stop, all = false }: { stop: AnimalStop; all?: boolean }) {
  const { world, round } = useRound();
  const records = onRecord(world, stop.animal.id, round).filter((record) => !isIdentity(record));
  const [last] = records;
  if (last === undefined) return null;
  if (!all) {
    return (
      <Link
        href={recordedPath(round, stop.animal.id)}
        className={`just-recorded one ${wantsAttention(last, world) ? 'look' : ''}`}
      >
        <Line record={last} />
        <span className="more">{say('round.correct.open')}</span>
      </Link>
    );
  }
  return (
    <Link href={recordedPath(round, stop.animal.id)} className="just-recorded">
      {records.map((record) => (
        <Line key={record.id} record={record} />
      ))}
      <span className="more">{say('round.recorded.open', { count: records.length })}</span>
    </Link>
  );
}

function Line({ record }: { record: RoundRecord }) {
  const { world } = useRound();
  return (
    <span className="line">
      <State tone={wantsAttention(record, world) ? 'attention' : 'done'}>
        {say('round.recorded.at', { at: { instant: record.happenedAt }, what: inOneLine(record, world) })}
      </State>
    </span>
  );
}

/** How the animal was identified stands beside its name already. */
const isIdentity = (record: RoundRecord): boolean =>
  record.kind === 'animal-identified' || (record.kind === 'chip-scanned' && record.body.occasion === 'identify');
