import { say } from '../../words/say.js';
import { Notice } from '../parts/state.js';
import { withoutHttps } from './plain.js';

/** Before a round: what this device will lack because the page came without https, and who can change that. */
export function NotSecure() {
  return (
    <Notice tone="attention">
      {say('round.plain.why')}
      <ul>
        {withoutHttps(navigator).map((what) => (
          <li key={what}>{say(`round.plain.${what}`)}</li>
        ))}
      </ul>
      {say('round.plain.cure')}
    </Notice>
  );
}
