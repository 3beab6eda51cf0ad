import { wetUntil } from '../../../log/bedside/wet-time.js';
import { say } from '../../../words/say.js';
import { State } from '../../parts/state.js';
import { clockText } from '../../parts/thread.js';
import { InSight } from '../around/bits.js';
import { useRound } from '../around/use-round.js';

/** Whether something is still wet from the last section: the section's name, or null. */
export function useWetFrom(): string | null {
  const around = useRound();
  return wetUntil(around.view.facts.visits, around.shelter, around.clock, around.now_ms)?.section ?? null;
}

/** How long the disinfectant on cart and table has still to stay wet. */
export function WetTime({ short = false }: { short?: boolean }) {
  const around = useRound();
  const wet = wetUntil(around.view.facts.visits, around.shelter, around.clock, around.now_ms);
  if (wet === null) return null;
  if (short) {
    return (
      <InSight>
        <State tone="running">{say('round.leave.still-wet', { section: wet.section })}</State>
        <b className="mono">{clockText(wet.at_ms - around.now_ms)}</b>
      </InSight>
    );
  }
  return (
    <div className="notice running row spread">
      <State tone="running">{say('round.leave.still-wet', { section: wet.section })}</State>
      <span className="mono">{clockText(wet.at_ms - around.now_ms)}</span>
    </div>
  );
}
