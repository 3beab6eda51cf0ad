import { createElement, startTransition, useEffect, useState } from 'react';
import { createRoot } from 'react-dom/client';
import type { PlanAsk } from '../../src/log/plan/ask.js';
import type { PlanJob } from '../../src/web/plan/messages.js';
import { makePlanner } from '../../src/web/plan/planner.js';
import type { Hand } from '../../src/web/ribbon/drawing/hand.js';
import { Ribbon } from '../../src/web/ribbon/drawing/ribbon.js';
import type { RibbonPicture } from '../../src/web/ribbon/drawing/ribbon-data.js';
import { pictureOf } from '../../src/web/ribbon/picture.js';
import { yardstickBy } from '../yardstick.js';
import type { Planned } from './planned.js';

declare global {
  interface Window {
    planOnce: (job: Omit<PlanJob, 'job'>) => Promise<Planned>;
  }
}

let show: (picture: RibbonPicture) => void = () => undefined;
let stands: () => void = () => undefined;

/** Every animal can be taken in hand, as on the page of a preparation. */
const hand: Hand = { next: (_, gap) => gap, consider: () => ({ ok: true, words: '' }), put: () => undefined };

/** Draws a plan as the app does: when no hand is on the page. */
function Page() {
  const [picture, setPicture] = useState<RibbonPicture | null>(null);
  show = (next) => startTransition(() => setPicture(next));
  // biome-ignore lint/correctness/useExhaustiveDependencies: told once the picture stands
  useEffect(() => stands(), [picture]);
  return picture === null ? null : createElement(Ribbon, { picture, label: 'the plan', hand });
}
createRoot(document.querySelector('#page') ?? document.body).render(createElement(Page));

/** One plan as the app asks for it: in its worker, each answer drawn, with the page's own longest pause beside it. */
window.planOnce = (job) =>
  new Promise((resolve, reject) => {
    const yardstick_ms = yardstickBy(() => performance.now()).ms();
    const began = performance.now();
    let [tick, away, drawn, longest] = [began, 0, 0, 0];
    // The page asks itself all the time whether it still answers; what it cannot answer for is a pause.
    const asking = setInterval(() => {
      const now = performance.now();
      [longest, tick] = [Math.max(longest, now - tick), now];
    }, 4);
    const tasks = new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) away = Math.max(away, duration);
    });
    tasks.observe({ entryTypes: ['longtask'] });
    const times: { -readonly [K in keyof Planned]?: Planned[K] } = {};
    makePlanner().ask(job, (told) => {
      const at = performance.now() - began;
      if (told.is === 'failed') reject(new Error(told.message));
      if (told.is === 'advice') {
        setTimeout(() => {
          tasks.disconnect();
          clearInterval(asking);
          resolve({
            ...times,
            advice_ms: at,
            longest_ms: longest,
            task_ms: away,
            drawn_ms: drawn,
            yardstick_ms,
          } as Planned);
        }, 1_000);
        return;
      }
      if (told.is !== 'plan' || told.plan === null) return;
      if (told.best) Object.assign(times, { best_ms: at, plan: told.plan });
      else times.first_ms = at;
      const before = performance.now();
      const ask = { round: job.round, stops: [] } as unknown as PlanAsk;
      stands = () => {
        drawn = Math.max(drawn, performance.now() - before);
      };
      show(pictureOf(ask, told.plan, 0, (id) => id));
    });
  });
