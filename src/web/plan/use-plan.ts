import { startTransition, useEffect, useState } from 'react';
import type { PlanAsk } from '../../log/plan/ask.js';
import type { PlanAnswer } from './messages.js';
import { makePlanner } from './planner.js';

export interface Planned {
  /** `working` until the best plan of the budget has come; a sound plan may be there before. */
  readonly state: 'nothing' | 'working' | 'done' | 'failed';
  readonly answer: Extract<PlanAnswer, { is: 'plan' }> | null;
  readonly advice: Extract<PlanAnswer, { is: 'advice' }> | null;
}

const nothing: Planned = { state: 'nothing', answer: null, advice: null };
/** Long enough for any size on a slow phone. */
const budget_ms = 2_000;

/** The plan for a question, as it gets better. A new question cancels the one before. */
export function usePlan(ask: PlanAsk | null): Planned {
  const [planned, setPlanned] = useState<Planned>(nothing);
  // The same question in other words is not asked again.
  const asked = ask === null ? null : JSON.stringify({ round: ask.round, rho: ask.rho });
  useEffect(() => {
    if (asked === null) {
      setPlanned(nothing);
      return;
    }
    setPlanned({ state: 'working', answer: null, advice: null });
    const planner = makePlanner();
    planner.ask({ ...JSON.parse(asked), budget_ms }, (told) => {
      // A ribbon of hundreds of animals takes a while to draw: a hand on the page comes first.
      startTransition(() =>
        setPlanned((before) => {
          if (told.is === 'failed') return { ...before, state: 'failed' };
          if (told.is === 'advice') return { ...before, advice: told };
          return { ...before, answer: told, state: told.best ? 'done' : 'working' };
        }),
      );
    });
    return planner.cancel;
  }, [asked]);
  return planned;
}
