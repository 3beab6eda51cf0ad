import { type Said, said } from '../../said.js';
import { endOf, type Instance, type Step } from '../model/instance.js';
import { bindsInWords } from '../search/bound.js';
import type { Plan } from '../search/search.js';

/** Minutes with at most one decimal: a figure for people, not for planning. */
export const inMinutes = (units: number, unitSeconds: number): number => Math.round((units * unitSeconds) / 6) / 10;

/**
 * A plan explained in sentences: how far from the best possible, what binds its end, which step ends it, where the
 * team waits and why, and why the animals come in this order.
 */
export function explainPlan(instance: Instance, plan: Plan): readonly Said[] {
  const minutes = (units: number): number => inMinutes(units, instance.unitSeconds);
  const { bounds, steps } = plan;
  const sentences: Said[] = [said('plan.takes', { minutes: minutes(plan.end), work: minutes(bounds.work) })];
  sentences.push(plan.shortest ? said('plan.shortest') : said('plan.gap', { percent: percentAbove(plan) }));
  sentences.push(bindsInWords(bounds));
  const last = lastStep(steps);
  if (last !== null) sentences.push(endsWith(last));
  sentences.push(...waits(instance, steps), ...whyThisOrder(instance, steps));
  if (plan.rho > 1) sentences.push(said('plan.safe', { times: plan.rho }));
  return sentences;
}

/** Whole per cent, rounded up, so that "within" is true. */
export const percentAbove = (plan: Plan): number => Math.ceil((plan.end / Math.max(1, plan.bounds.best) - 1) * 100);

const lastStep = (steps: readonly Step[]): Step | null =>
  steps.find((step) => step.start + step.duration === endOf(steps)) ?? null;

const endsWith = (step: Step): Said =>
  step.is === 'reading'
    ? said('plan.ends.reading', { animal: step.animal ?? '' })
    : said('plan.ends.handling', { animal: step.animal ?? step.litter });

/** Every time the team has its hands free for a minute or more, with what it waits for. */
function waits(instance: Instance, steps: readonly Step[]): Said[] {
  const sorted = [...steps].sort((a, b) => a.start - b.start);
  const found: Said[] = [];
  let free = sorted[0]?.start ?? 0;
  for (const step of sorted) {
    const idle = step.start - free;
    free = Math.max(free, step.start + step.duration);
    if (idle * instance.unitSeconds < 60) continue;
    const values = { minutes: inMinutes(idle, instance.unitSeconds), animal: step.animal ?? step.litter };
    if (step.is === 'reading') found.push(said('plan.waits.reading', values));
    else if (step.is === 'start-test') found.push(said('plan.waits.kit', values));
    else if (step.fetchFrom !== undefined) found.push(said('plan.waits.holder', values));
    else found.push(said('plan.waits.other', values));
  }
  return found;
}

function whyThisOrder(instance: Instance, steps: readonly Step[]): Said[] {
  const starts = steps.filter((step) => step.is === 'start-test');
  const last = starts.at(-1);
  if (last === undefined) return [];
  const why: Said[] = [];
  const tested = new Set(starts.map((step) => step.animal));
  const after = steps.filter((step) => step.is === 'handling' && step.start >= last.start);
  const fillers = [...new Set(after.map((step) => step.animal ?? ''))].filter((animal) => !tested.has(animal));
  if (fillers.length > 0) why.push(said('plan.why.others-last', { animals: { list: fillers } }));
  if (after.some((step) => step.animal === last.animal))
    why.push(said('plan.why.rest-last', { animal: last.animal ?? '' }));
  const together = starts.filter((step, i) => {
    const next = starts[i + 1];
    return next !== undefined && next.start === step.start + step.duration;
  });
  if (together.length > 0) why.push(said('plan.why.started-together', { times: together.length }));
  const putBack = instance.splitVisitAllowed
    ? steps.filter((step) => step.op === 1 && isFetchedAgain(instance, step)).map((step) => step.animal ?? '')
    : [];
  if (putBack.length > 0) why.push(said('plan.why.put-back', { animals: { list: putBack } }));
  return why;
}

function isFetchedAgain(instance: Instance, step: Step): boolean {
  const animal = instance.litters.flatMap((litter) => litter.animals).find((one) => one.id === step.animal);
  const bare = animal?.ops[1]?.dur ?? 0;
  return animal?.tested === true && (step.fetchFrom !== undefined || step.duration > bare);
}
