/**
 * A checker of plans, written only from the text `semantics` of reference/planning.json. It shares nothing with the
 * planner, not even its types: it takes the instance and the schedule as JSON and gives every rule that is broken.
 * Beyond that text it knows animals with several kits: each is started and read like one, in its own kind's window; and
 * one holder counted apart, who puts an animal back and fetches the next (with gloves of his own for another litter)
 * while the treater goes on: of fetching only `confirm` is then the treater's. Putting back in between is not checked so.
 */
export interface Timed {
  readonly op: string;
  readonly start: number;
  readonly duration: number;
}

interface CheckedAnimal {
  readonly id: string;
  readonly tested: boolean;
  readonly kits?: readonly string[] | undefined;
  readonly ops: readonly { readonly kind: string; readonly dur: number }[];
}

export interface CheckedInstance {
  readonly gloveChange: number;
  readonly fetch: number;
  readonly refetch: number;
  readonly splitVisitAllowed: boolean;
  readonly holders?: number | undefined;
  readonly confirm?: number | undefined;
  readonly test: {
    readonly start: number;
    readonly readLagMin: number;
    readonly readLagMax: number;
    readonly read: number;
    readonly sampleHoldMax: number;
    readonly runningLimit: number | null;
    readonly windows?:
      | Readonly<Record<string, { readonly readLagMin: number; readonly readLagMax: number }>>
      | undefined;
  };
  readonly kitReadyAt: readonly number[] | null;
  readonly litters: readonly { readonly id: string; readonly animals: readonly CheckedAnimal[] }[];
}

export interface Verdict {
  readonly faults: readonly string[];
  readonly end: number;
  readonly spread: number;
}

interface Span {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

export function checkPlan(instance: CheckedInstance, schedule: readonly Timed[]): Verdict {
  const faults: string[] = [];
  const left = [...schedule];
  /** Take the earliest line of this name out of the schedule; what nobody takes is a fault. */
  const claim = (op: string): Span | null => {
    const at = left.reduce((best, line, i) => {
      const other = left[best];
      return line.op === op && (other === undefined || line.start < other.start) ? i : best;
    }, -1);
    const line = left[at];
    if (line === undefined) {
      faults.push(`${op} is missing`);
      return null;
    }
    left.splice(at, 1);
    return { name: op, from: line.start, to: line.start + line.duration };
  };
  const long = (span: Span | null, length: number): void => {
    if (span !== null && span.to - span.from !== length) faults.push(`${span.name} is not ${length} long`);
  };

  for (const { op, start, duration } of schedule) {
    if (!Number.isInteger(start) || !Number.isInteger(duration) || start < 0) faults.push(`${op} has an unreal time`);
  }
  overlaps(schedule.map((line) => ({ name: line.op, from: line.start, to: line.start + line.duration }))).forEach(
    (pair) => {
      faults.push(`the team does two things at once: ${pair}`);
    },
  );

  const blocks: Span[] = [];
  const visits: Span[] = [];
  const starts: Span[] = [];
  const runs: Span[] = [];
  let spread = 0;
  for (const litter of instance.litters) {
    const gloves = claim(`${litter.id}:glove-change`);
    long(gloves, instance.gloveChange);
    const touched: Span[] = [];
    for (const animal of litter.animals) {
      const handled = animal.ops.map((op) => claim(`${animal.id}:${op.kind}`));
      const done = handled.filter((span) => span !== null);
      touched.push(...done);
      for (const [i, span] of done.entries()) {
        const before = done[i - 1];
        if (before !== undefined && span.from < before.to)
          faults.push(`${span.name} begins before ${before.name} ends`);
      }
      const again = putBack(instance, animal, handled);
      for (const [i, op] of animal.ops.entries()) {
        const extra = i === 0 ? treatersFetch(instance) : i === 1 && again ? instance.refetch : 0;
        long(handled[i] ?? null, op.dur + extra);
      }
      const [first] = done;
      const last = done.at(-1);
      if (first !== undefined && last !== undefined) {
        spread += last.to - first.from - done.reduce((sum, span) => sum + span.to - span.from, 0);
        if (again) {
          visits.push({ ...first, name: `${animal.id} (draw)` });
          visits.push({ name: `${animal.id} (rest)`, from: done[1]?.from ?? 0, to: last.to });
        } else visits.push({ name: animal.id, from: first.from, to: last.to });
      }
      if (!animal.tested) continue;
      if (animal.ops[0]?.kind !== 'draw') faults.push(`${animal.id} is tested and has no draw first`);
      for (const kit of animal.kits ?? ['']) {
        const name = kit === '' ? '' : `:${kit}`;
        const window = instance.test.windows?.[kit] ?? instance.test;
        const start = claim(`${animal.id}:start-test${name}`);
        const read = claim(`${animal.id}:read${name}`);
        long(start, instance.test.start);
        long(read, instance.test.read);
        const draw = handled[0] ?? null;
        if (start === null || read === null || draw === null) continue;
        if (start.from < draw.to) faults.push(`${animal.id}: test started before the draw ended`);
        if (start.from > draw.to + instance.test.sampleHoldMax) faults.push(`${animal.id}: blood waited too long`);
        if (read.from < start.to + window.readLagMin) faults.push(`${animal.id}: read too early`);
        if (read.from > start.to + window.readLagMax) faults.push(`${animal.id}: read too late`);
        starts.push(start);
        runs.push({ name: `${animal.id}${name}`, from: start.to, to: read.from });
      }
    }
    if (gloves === null || touched.length === 0) continue;
    if (touched.some((span) => span.from < gloves.to))
      faults.push(`${litter.id}: touched before the gloves were changed`);
    blocks.push({ name: litter.id, from: gloves.from, to: Math.max(...touched.map((span) => span.to)) });
  }
  for (const line of left) faults.push(`${line.op} is not in the instance, or stands twice`);
  for (const pair of overlaps(blocks)) faults.push(`two litters at once: ${pair}`);
  for (const pair of overlaps(visits)) faults.push(`two animals out at once: ${pair}`);

  faults.push(...holderFaults(instance, visits));

  const limit = instance.test.runningLimit;
  if (limit !== null) {
    for (const run of runs) {
      // Half open: a test that ends as this one begins does not count.
      const together = runs.filter((other) => other.from <= run.from && run.from < other.to).length;
      if (together > limit) faults.push(`${together} tests run when ${run.name} has been started`);
    }
  }
  if (instance.kitReadyAt !== null) {
    const ready = [...instance.kitReadyAt].sort((a, b) => a - b);
    const sorted = starts.map((span) => span.from).sort((a, b) => a - b);
    for (const [k, start] of sorted.entries()) {
      if (start < (ready[k] ?? Number.POSITIVE_INFINITY)) faults.push(`test ${k + 1} is started before a kit is ready`);
    }
  }
  return { faults, end: Math.max(0, ...schedule.map((line) => line.start + line.duration)), spread };
}

/** What fetching costs the treater. */
export const treatersFetch = (instance: CheckedInstance): number =>
  instance.holders === undefined ? instance.fetch : (instance.confirm ?? 0);

/** From one animal to the next the one holder needs his way, and fresh gloves where it is another litter. */
function holderFaults(instance: CheckedInstance, visits: readonly Span[]): string[] {
  if (instance.holders === undefined) return [];
  if (instance.holders !== 1 || instance.splitVisitAllowed) return ['only one holder and whole visits can be checked'];
  const litterOf = new Map(instance.litters.flatMap(({ id, animals }) => animals.map((one) => [one.id, id] as const)));
  const sorted = [...visits].sort((a, b) => a.from - b.from);
  return sorted.flatMap((visit, i) => {
    const before = sorted[i - 1];
    const same = before !== undefined && litterOf.get(before.name) === litterOf.get(visit.name);
    const there = (before?.to ?? 0) + (same ? 0 : instance.gloveChange) + instance.fetch - treatersFetch(instance);
    return visit.from < there ? [`${visit.name} is there before the holder can have brought it`] : [];
  });
}

/** Whether an animal was put back after its draw: told by the length of its second operation. */
function putBack(instance: CheckedInstance, animal: CheckedAnimal, handled: readonly (Span | null)[]): boolean {
  const second = handled[1];
  if (!instance.splitVisitAllowed || !animal.tested || second == null) return false;
  return second.to - second.from === (animal.ops[1]?.dur ?? 0) + instance.refetch && instance.refetch > 0;
}

function overlaps(spans: readonly Span[]): string[] {
  const sorted = [...spans].sort((a, b) => a.from - b.from || a.to - b.to);
  const found: string[] = [];
  let last: Span | null = null;
  for (const span of sorted) {
    if (last !== null && span.from < last.to) found.push(`${last.name} and ${span.name}`);
    if (last === null || span.to > last.to) last = span;
  }
  return found;
}
