import type { Step } from './instance.js';
import { gloving, handling, type Node, reading } from './node.js';
import type { Problem } from './problem.js';

/** The steps that lead to a node, in order. Tests are started and read first in, first out. */
export function stepsTo(p: Problem, last: Node): Step[] {
  const chain: Node[] = [];
  for (let node = last; node.parent !== null; node = node.parent) chain.push(node);
  const waiting = samples(p, 'waiting');
  const running = samples(p, 'running');
  const litterName = (l: number): string => p.instance.litters[l]?.id ?? '';
  const testStep = (is: 'start-test' | 'reading', animal: number, node: Node): Step => ({
    is,
    litter: litterName(p.litterOf[animal] ?? 0),
    animal: p.animals[animal]?.id ?? '',
    kind: is === 'reading' ? 'read' : is,
    op: null,
    start: node.start,
    duration: node.length,
  });
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
      };
    if (node.move === handling) {
      const op = (node.parent?.progress[subject] ?? 0) & 63;
      if (op === 0 && p.tested[subject] === 1) waiting.push(subject);
      const animal = p.animals[subject];
      const litter = litterName(p.litterOf[subject] ?? 0);
      return {
        is: 'handling',
        litter,
        animal: animal?.id ?? '',
        kind: animal?.ops[op]?.kind ?? '',
        op,
        start,
        duration,
      };
    }
    if (node.move === reading) return testStep('reading', running.shift() ?? 0, node);
    const animal = waiting.shift() ?? 0;
    running.push(animal);
    return testStep('start-test', animal, node);
  });
}

function samples(p: Problem, is: 'waiting' | 'running'): number[] {
  const since = (animal: number): number => {
    const sample = p.began.animals.find((one) => one.id === p.animals[animal]?.id)?.sample ?? null;
    return sample?.is === is ? sample.since : -1;
  };
  return p.animals
    .map((_, animal) => animal)
    .filter((animal) => since(animal) >= 0)
    .sort((a, b) => since(a) - since(b));
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
