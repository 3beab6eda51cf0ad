import type { PlanAnswer, PlanJob } from './messages.js';
import { workOut } from './work.js';

/** Where plans are worked out. Asking again cancels the job before: its worker is ended, not waited for. */
export interface Planner {
  readonly ask: (job: Omit<PlanJob, 'job'>, told: (answer: PlanAnswer) => void) => void;
  readonly cancel: () => void;
}

/** Without a worker the page itself works the plan out, with less time, so that it stays usable. */
const onPage_ms = 250;

export type MakeWorker = () => Pick<Worker, 'postMessage' | 'terminate' | 'onmessage' | 'onerror'>;

const usualWorker: MakeWorker = () => new Worker(new URL('./plan.worker.ts', import.meta.url), { type: 'module' });

export function makePlanner(
  makeWorker: MakeWorker = usualWorker,
  now_ms: () => number = () => performance.now(),
): Planner {
  let worker: ReturnType<MakeWorker> | null = null;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let number = 0;
  const cancel = (): void => {
    number += 1;
    worker?.terminate();
    worker = null;
    clearTimeout(waiting);
  };
  const onPage = (job: PlanJob, told: (answer: PlanAnswer) => void): void => {
    waiting = setTimeout(() => {
      workOut({ ...job, budget_ms: Math.min(job.budget_ms, onPage_ms) }, now_ms, (answer) => {
        if (answer.job === number) told(answer);
      });
    }, 0);
  };
  return {
    cancel,
    ask: (asked, told) => {
      cancel();
      const job: PlanJob = { ...asked, job: number };
      try {
        const made = makeWorker();
        worker = made;
        made.onmessage = (event: MessageEvent<PlanAnswer>) => {
          if (event.data.job === number) told(event.data);
        };
        // A worker that cannot be loaded (an old browser, a strict policy) is as good as none.
        made.onerror = () => {
          if (worker !== made) return;
          made.terminate();
          worker = null;
          if (job.job === number) onPage(job, told);
        };
        made.postMessage(job);
      } catch {
        worker = null;
        onPage(job, told);
      }
    },
  };
}
