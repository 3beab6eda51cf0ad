import type { Step } from '../model/instance.js';
import { type Problem, putBack } from '../model/problem.js';
import { samplesOf } from '../model/run-state.js';
import { gloving, handling, type Node, reading } from './node.js';

/** Blood for one kit on its way through the plan; `opens` orders those that run. */
interface Vial {
  readonly animal: number;
  readonly kit: string | undefined;
  readonly opens: number;
}

/** The steps that lead to a node, in order. Tests are started as they were drawn and read as their windows open. */
export function stepsTo(p: Problem, last: Node): Step[] {
  const chain: Node[] = [];
  for (let node = last; node.parent !== null; node = node.parent) chain.push(node);
  const waiting = vials(p, 'waiting');
  const running = vials(p, 'running');
  const litterName = (l: number): string => p.instance.litters[l]?.id ?? '';
  const testStep = (is: 'start-test' | 'reading', { animal, kit }: Vial, node: Node): Step => ({
    is,
    litter: litterName(p.litterOf[animal] ?? 0),
    animal: p.animals[animal]?.id ?? '',
    kind: is === 'reading' ? 'read' : is,
    op: null,
    start: node.start,
    duration: node.length,
    people: 1,
    ...(kit === undefined ? {} : { kit }),
  });
  const nobody: Vial = { animal: 0, kit: undefined, opens: 0 };
  return chain.reverse().map((node): Step => {
    const { start, length: duration, subject } = node;
    if (node.move === gloving)
      return {
        is: 'gloves',
        litter: litterName(subject),
        animal: null,
        kind: 'glove-change',
        op: null,
        start,
        duration,
        people: 1,
      };
    if (node.move === handling) {
      const progress = node.parent?.progress[subject] ?? 0;
      const op = progress & 63;
      if (op === 0 && p.tested[subject] === 1)
        waiting.push(...(p.kindsOf[subject] ?? []).map((kit) => ({ animal: subject, kit, opens: 0 })));
      const animal = p.animals[subject];
      const litter = litterName(p.litterOf[subject] ?? 0);
      const fetched = p.holders > 0 && subject !== node.parent?.animal;
      return {
        is: 'handling',
        litter,
        animal: animal?.id ?? '',
        kind: animal?.ops[op]?.kind ?? '',
        op,
        start,
        duration,
        people: p.needsTwo[subject * p.stride + op] === 1 ? 2 : 1,
        ...(fetched ? { fetchFrom: start - (progress >= putBack ? p.refetchBeside : p.fetchBeside) } : {}),
      };
    }
    if (node.move === reading) return testStep('reading', running.shift() ?? nobody, node);
    const vial = waiting.shift() ?? nobody;
    const opens = node.time + p.clock.later(vial.kit);
    const place = running.findIndex((one) => one.opens > opens);
    running.splice(place < 0 ? running.length : place, 0, { ...vial, opens });
    return testStep('start-test', vial, node);
  });
}

function vials(p: Problem, is: 'waiting' | 'running'): Vial[] {
  const found = p.animals.flatMap(({ id }, animal) => {
    const own = p.began.animals.find((one) => one.id === id);
    return (own === undefined ? [] : samplesOf(own)).flatMap((blood) =>
      blood.is === is ? [{ animal, kit: blood.kit, since: blood.since, later: p.clock.later(blood.kit) }] : [],
    );
  });
  // In the order of `rootOf`.
  const inOrder =
    is === 'waiting'
      ? found.sort((a, b) => a.since - b.since || b.later - a.later)
      : found.sort((a, b) => a.since + a.later - b.since - b.later);
  return inOrder.map(({ animal, kit, since, later }) => ({ animal, kit, opens: since + later }));
}

/** Time animals are kept waiting between their first and last handling (second goal, lower is better). */
export function spreadOf(steps: readonly Step[]): number {
  const visits = new Map<string, { from: number; to: number; own: number }>();
  for (const step of steps) {
    if (step.is !== 'handling' || step.animal === null) continue;
    const end = step.start + step.duration;
    const visit = visits.get(step.animal);
    if (visit === undefined) visits.set(step.animal, { from: step.start, to: end, own: step.duration });
    else {
      visit.from = Math.min(visit.from, step.start);
      visit.to = Math.max(visit.to, end);
      visit.own += step.duration;
    }
  }
  return [...visits.values()].reduce((sum, { from, to, own }) => sum + (to - from - own), 0);
}

/** Most tests that run at one moment, from the end of starting to the start of reading. */
export function peakRunning(steps: readonly Step[]): number {
  const changes = steps
    .filter((step) => step.is === 'start-test' || step.is === 'reading')
    .map((step) => (step.is === 'reading' ? { at: step.start, by: -1 } : { at: step.start + step.duration, by: 1 }))
    .sort((a, b) => a.at - b.at || a.by - b.by);
  let running = 0;
  return changes.reduce((most, { by }) => {
    running += by;
    return Math.max(most, running);
  }, 0);
}
