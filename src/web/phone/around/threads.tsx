import { testsRunning } from '../../../log/views/blood-tests/running-tests.js';
import { inTurn, type Running, shownHere } from '../../running/running.js';
import type { OnRound } from './use-round.js';

export type { Running } from '../../running/running.js';
export { ThreadClock } from '../../running/thread-clock.js';

/** Tests whose clock runs on this round, in the order in which they are to be read. */
export const runningTests = ({ world, round, clock, now_ms }: OnRound): Running[] =>
  inTurn(
    testsRunning(world, (facts) => facts.id === round).map((test) => shownHere(test, clock, now_ms)),
    now_ms,
  );
