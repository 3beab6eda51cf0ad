import { type WetEnd, wetEnds } from '../../../log/bedside/wet-time.js';
import { say } from '../../../words/say.js';
import { State } from '../../parts/state.js';
import { clockText } from '../../parts/thread.js';
import { InSight } from '../around/bits.js';
import { useRound } from '../around/use-round.js';

/** What is still wet from sections that were left, the last to dry first. */
export function useWet(): WetEnd[] {
  const around = useRound();
  return wetEnds(around.view.facts.visits, around.shelter, around.clock, around.now_ms);
}

/** How long the disinfectant on cart and table has still to stay wet, of each section that was left. */
export function WetTime({ short = false }: { short?: boolean }) {
  const { now_ms } = useRound();
  const wet = useWet();
  if (short) {
    return wet.map(({ section, at_ms }) => (
      <InSight key={section}>
        <State tone="running">{say('round.leave.still-wet', { section })}</State>
        <b className="mono">{clockText(at_ms - now_ms)}</b>
      </InSight>
    ));
  }
  return wet.map(({ section, at_ms }) => (
    <div key={section} className="notice running row spread">
      <State tone="running">{say('round.leave.still-wet', { section })}</State>
      <span className="mono">{clockText(at_ms - now_ms)}</span>
    </div>
  ));
}
