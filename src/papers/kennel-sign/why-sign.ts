import { type Said, said } from '../../core/said.js';
import type { Flag } from '../../log/flag.js';

type Apart = Pick<Flag, 'code' | 'raisedAt'>;
const isOfLamp = ({ code }: Apart): boolean => code.startsWith('lamp-') || code === 'glow-taken-back';

/** Why a sign hangs: the test or look that waits, what was seen, or that nobody has asked for it. */
export function whySign(apart: readonly Apart[], seen: readonly string[]): Said {
  const [why] = apart.filter((flag) => !isOfLamp(flag)).concat(apart);
  if (why !== undefined) {
    return said(isOfLamp(why) ? 'desk.sign.since-lamp' : 'desk.sign.since', { at: { instant: why.raisedAt } });
  }
  return seen.length > 0 ? said('desk.sign.seen', { what: { list: seen } }) : said('desk.sign.nobody-asked');
}
