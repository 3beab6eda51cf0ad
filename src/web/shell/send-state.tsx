import { Link } from 'wouter';
import { limits } from '../../api/wire.js';
import { say } from '../../words/say.js';
import { State } from '../parts/state.js';
import { useStatus } from '../store/here.js';

/** What has not been sent, always in sight, beside it a clock that is wrong; it leads to the page that explains. */
export function SendState() {
  const status = useStatus();
  const { unsent, turnedAway, pictures, server, clock } = status;
  const off = clock !== null && Math.abs(clock.ahead_ms) > limits.skew_s * 1000;
  const words = (): { tone: 'stop' | 'attention' | 'done' | 'plain'; text: string } => {
    if (turnedAway > 0) return { tone: 'stop', text: say('parts.send.turned-away', { count: turnedAway }) };
    if (server === 'other-shelter') return { tone: 'stop', text: say('parts.send.other-shelter') };
    if (unsent > 0) return { tone: 'attention', text: say('parts.send.unsent', { count: unsent }) };
    // A photo is two pictures, sent one after the other.
    const photos = (count: number): number => Math.ceil(count / 2);
    if (pictures.notTaken > 0)
      return { tone: 'stop', text: say('parts.send.pictures-not-taken', { count: photos(pictures.notTaken) }) };
    if (pictures.waiting > 0)
      return { tone: 'attention', text: say('parts.send.pictures', { count: photos(pictures.waiting) }) };
    if (server === 'out-of-reach') return { tone: 'plain', text: say('parts.send.offline') };
    if (server === 'reached') return { tone: 'done', text: say('parts.send.all') };
    return { tone: 'plain', text: say('parts.send.unknown') };
  };
  const { tone, text } = words();
  return (
    <Link href="/device" style={{ textDecoration: 'none' }}>
      <State tone={tone}>{text}</State>
      {off && (
        <>
          {' '}
          <State tone="attention">{say('parts.send.clock')}</State>
        </>
      )}
    </Link>
  );
}
