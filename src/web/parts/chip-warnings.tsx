import type { Said } from '../../core/said.js';
import { say } from '../../words/say.js';
import { Notice } from './state.js';

/** What has to be looked at in a chip number: it stands wherever the number stands. */
export function ChipWarnings({ warnings }: { warnings: readonly Said[] }) {
  return (
    <>
      {warnings.map((one) => (
        <Notice key={one.say} tone={one.say === 'chip.test-number' ? 'stop' : 'attention'}>
          {say(one)}
        </Notice>
      ))}
    </>
  );
}
