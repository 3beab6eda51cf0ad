import { useLocation } from 'wouter';
import { say } from '../../../words/say.js';
import { BigButton } from '../../parts/act.js';
import { roundPath } from '../../parts/round-paths.js';
import { RoundClock } from '../../ribbon/round-clock.js';
import { Acts } from '../around/bits.js';
import { useRound } from '../around/use-round.js';

/** The ribbon of the round on the phone: what comes when, and what has changed. */
export function Clock() {
  const { view, round } = useRound();
  const [, go] = useLocation();
  return (
    <>
      <div className="round-body">
        <h1>{say('ribbon.clock')}</h1>
        <RoundClock view={view} />
      </div>
      <Acts>
        <BigButton onAct={() => go(roundPath(round))}>{say('round.to-round')}</BigButton>
      </Acts>
    </>
  );
}
