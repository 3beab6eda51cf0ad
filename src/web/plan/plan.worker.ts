import type { PlanJob } from './messages.js';
import { workOut } from './work.js';

// A worker of its own, so that the search never holds up a hand on the screen.
self.onmessage = (event: MessageEvent<PlanJob>) => {
  workOut(
    event.data,
    () => performance.now(),
    (answer) => self.postMessage(answer),
  );
};
