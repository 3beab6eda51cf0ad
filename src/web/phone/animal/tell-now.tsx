import { dayOfInstant } from '../../../core/calendar.js';
import { flagsIn } from '../../../log/flags/flags.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { sayFlagged } from '../../../told/flag-reach.js';
import { say } from '../../../words/say.js';
import { Notice } from '../../parts/state.js';
import { useStatus } from '../../store/here.js';
import { useRound } from '../around/use-round.js';

/** What was recorded of this animal today and must reach somebody now: at the cage, not only at the desk. */
export function TellNow({ stop }: { stop: AnimalStop }) {
  const { world, today, shelter } = useRound();
  const status = useStatus();
  const flags = flagsIn(world, today).filter(
    (flag) =>
      flag.animal === stop.animal.id &&
      (flag.severity === 'stop' || isOfHealth(flag.code)) &&
      flag.state === 'open' &&
      dayOfInstant(flag.raisedAt, shelter.zone) === today,
  );
  return flags.map((flag) => (
    <Notice key={flag.key} tone={flag.severity}>
      {say(flag.why)} {sayFlagged(flag.for, status)}
    </Notice>
  ));
}

/** A weight that is lost and a sign of illness reach somebody today, whatever their weight. */
const isOfHealth = (code: string): boolean =>
  code === 'bit-somebody' ||
  code === 'looks-ill' ||
  code === 'left-ill' ||
  (code.startsWith('weight-') && code !== 'weight-doubtful');
