import type { Answer } from '../../../api/client.js';
import type { ShelterState } from '../../../api/wire.js';

/** How often it is asked, and how long between: a busy machine has made the demo within a minute. */
const times = 20;
const between_ms = 3_000;

const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/**
 * Whether the shelter stands there after all, when the answer to setting it up did not come in time. A shelter that is
 * there and not set up yet is asked for again: the machine may still be at work.
 */
export async function madeMeanwhile(
  ask: () => Promise<Answer<ShelterState>>,
  pause: (ms: number) => Promise<void> = wait,
): Promise<Answer<ShelterState>> {
  for (let left = times; ; left -= 1) {
    const answer = await ask();
    if ((answer.ok && answer.value.state === 'ready') || left <= 1) return answer;
    await pause(between_ms);
  }
}
