import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { useStatusOf } from '../store/here.js';
import { newerVersion, switchVersion } from '../store/version.js';

/** For a page whose database another tab has taken: only loading it again helps, and a person decides when. */
export function LoadAgain() {
  const stopped = useStatusOf('stopped');
  if (stopped === null) return null;
  return (
    <Act size="mid" onAct={() => (newerVersion.get() ? switchVersion() : location.reload())}>
      {say(`parts.stopped.load-${stopped}`)}
    </Act>
  );
}
