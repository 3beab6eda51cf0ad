import { type CheckedInstance, type Timed, treatersFetch } from '../support/plan-checker.js';

/**
 * A time-indexed model of one section: "is there a plan that ends by T?" It is written from the text of the rules
 * (reference/planning.json), apart from the planner. For every operation i and time t the variable x_i(t) is 1 when i
 * has started by t; it is 0 before i can start and 1 from the last moment at which it may. Without split visits. One
 * holder counted apart has operations of his own: gloves for every litter, and the way to every animal.
 */
export interface StepModel {
  /** The model in the LP format of HiGHS. */
  readonly text: string;
  /** Rows that a schedule breaks; empty when the schedule is a solution. */
  readonly broken: (schedule: readonly Timed[]) => string[];
}

interface Operation {
  readonly by: 'treater' | 'holder';
  readonly name: string;
  readonly length: number;
  /** Least time from the start of an earlier operation to the start of this one. */
  readonly after: { readonly op: number; readonly lag: number }[];
}

interface Row {
  readonly name: string;
  /** Coefficient by variable; the row says sum <= most. */
  readonly terms: ReadonlyMap<string, number>;
  readonly most: number;
}

type Term = readonly [coefficient: number, op: number, time: number];

export function stepModel(instance: CheckedInstance, horizon: number): StepModel {
  const ops: Operation[] = [];
  const most: { from: number; to: number; lag: number }[] = [];
  const visits: { first: number; last: number }[] = [];
  const litters: { gloves: number; holders: number | null; lasts: number[] }[] = [];
  const starts: number[] = [];
  const reads: number[] = [];
  const add = (name: string, length: number, after: Operation['after'], by: Operation['by'] = 'treater'): number =>
    ops.push({ by, name, length, after }) - 1;
  const { test } = instance;
  const apart = instance.holders === 1;
  const way = instance.fetch - treatersFetch(instance);
  for (const litter of instance.litters) {
    const gloves = add(`${litter.id}:glove-change`, instance.gloveChange, []);
    const holders = apart ? add(`${litter.id}:holder-gloves`, instance.gloveChange, [], 'holder') : null;
    if (holders !== null) visits.push({ first: holders, last: holders });
    const lasts: number[] = [];
    for (const animal of litter.animals) {
      let before = gloves;
      const ways =
        holders === null ? null : add(`${animal.id}:way`, way, [{ op: holders, lag: instance.gloveChange }], 'holder');
      const handled = animal.ops.map((op, i) => {
        const length = op.dur + (i === 0 ? treatersFetch(instance) : 0);
        const after = [{ op: before, lag: ops[before]?.length ?? 0 }];
        if (i === 0 && ways !== null) after.push({ op: ways, lag: way });
        before = add(`${animal.id}:${op.kind}`, length, after);
        return before;
      });
      const [first = 0] = handled;
      lasts.push(before);
      visits.push({ first: ways ?? first, last: before });
      if (!animal.tested) continue;
      const drawn = ops[first]?.length ?? 0;
      const start = add(`${animal.id}:start-test`, test.start, [{ op: first, lag: drawn }]);
      const read = add(`${animal.id}:read`, test.read, [{ op: start, lag: test.start + test.readLagMin }]);
      most.push({ from: first, to: start, lag: drawn + test.sampleHoldMax });
      most.push({ from: start, to: read, lag: test.start + test.readLagMax });
      starts.push(start);
      reads.push(read);
    }
    litters.push({ gloves, holders, lasts });
  }

  const earliest = ops.map(() => 0);
  for (const [i, op] of ops.entries())
    for (const { op: j, lag } of op.after) earliest[i] = Math.max(earliest[i] ?? 0, (earliest[j] ?? 0) + lag);
  const latest = ops.map((op) => horizon - op.length);
  for (let i = ops.length - 1; i >= 0; i -= 1) {
    for (const { op: j, lag } of ops[i]?.after ?? []) latest[j] = Math.min(latest[j] ?? 0, (latest[i] ?? 0) - lag);
  }

  const rows: Row[] = [];
  const variables = new Set<string>();
  let impossible = ops.some((_, i) => (earliest[i] ?? 0) > (latest[i] ?? 0));
  const row = (
    name: string,
    terms: readonly Term[],
    limit: number,
    extra: readonly (readonly [number, string])[] = [],
  ): void => {
    const sum = new Map<string, number>();
    let rest = limit;
    for (const [coefficient, op, time] of terms) {
      if (time >= (latest[op] ?? 0)) rest -= coefficient;
      else if (time >= (earliest[op] ?? 0)) sum.set(`x${op}_${time}`, (sum.get(`x${op}_${time}`) ?? 0) + coefficient);
    }
    for (const [coefficient, name] of extra) sum.set(name, (sum.get(name) ?? 0) + coefficient);
    const terms_ = new Map([...sum].filter(([, coefficient]) => coefficient !== 0));
    if (terms_.size === 0) {
      if (rest < 0) impossible = true;
      return;
    }
    for (const name of terms_.keys()) variables.add(name);
    rows.push({ name, terms: terms_, most: rest });
  };

  const kits = instance.kitReadyAt === null ? null : [...instance.kitReadyAt].sort((a, b) => a - b);
  for (let t = 0; t <= horizon; t += 1) {
    row(
      `team ${t}`,
      ops.flatMap((op, i): Term[] =>
        op.by === 'holder'
          ? []
          : [
              [1, i, t],
              [-1, i, t - op.length],
            ],
      ),
      1,
    );
    row(
      `out ${t}`,
      visits.flatMap(({ first, last }): Term[] => [
        [1, first, t],
        [-1, last, t - (ops[last]?.length ?? 0)],
      ]),
      1,
    );
    for (const who of apart ? (['gloves', 'holders'] as const) : (['gloves'] as const))
      row(
        `litters ${who} ${t}`,
        litters.map((litter): Term => [1, litter[who] ?? 0, t]),
        1,
        litters.map((_, g) => [-1, `e${g}_${t}`] as const),
      );
    for (const [g, { lasts }] of litters.entries()) {
      for (const last of lasts)
        row(`closed ${g} ${t}`, [[-1, last, t - (ops[last]?.length ?? 0)]], 0, [[1, `e${g}_${t}`]]);
    }
    for (const [i, op] of ops.entries()) {
      row(
        `stays ${i} ${t}`,
        [
          [1, i, t - 1],
          [-1, i, t],
        ],
        0,
      );
      for (const { op: j, lag } of op.after)
        row(
          `after ${j} ${i} ${t}`,
          [
            [1, i, t],
            [-1, j, t - lag],
          ],
          0,
        );
    }
    for (const { from, to, lag } of most)
      row(
        `within ${from} ${to} ${t}`,
        [
          [1, from, t],
          [-1, to, t + lag],
        ],
        0,
      );
    if (kits !== null)
      row(
        `kits ${t}`,
        starts.map((i): Term => [1, i, t]),
        kits.filter((ready) => ready <= t).length,
      );
    if (test.runningLimit !== null) {
      const running = starts.flatMap((i, k): Term[] => [
        [1, i, t - test.start],
        [-1, reads[k] ?? 0, t],
      ]);
      row(`running ${t}`, running, test.runningLimit);
    }
  }
  if (impossible) rows.push({ name: 'impossible', terms: new Map([['z', 1]]), most: -1 });
  if (impossible) variables.add('z');

  const broken = (schedule: readonly Timed[]): string[] => {
    const start = new Map(schedule.map((line) => [line.op, line.start]));
    const started = (i: number, t: number): boolean => (start.get(ops[i]?.name ?? '') ?? Number.POSITIVE_INFINITY) <= t;
    const value = (name: string): number => {
      const [kind, index, t] = [name[0], ...name.slice(1).split('_').map(Number)] as [string, number, number];
      if (kind === 'x') return started(index, t) ? 1 : 0;
      if (kind !== 'e') return 0;
      return litters[index]?.lasts.every((last) => started(last, t - (ops[last]?.length ?? 0))) ? 1 : 0;
    };
    return rows
      .filter(({ terms, most: limit }) => [...terms].reduce((sum, [name, by]) => sum + by * value(name), 0) > limit)
      .map((one) => one.name);
  };
  return { text: asText(rows, variables), broken };
}

function asText(rows: readonly Row[], variables: ReadonlySet<string>): string {
  const sum = (terms: ReadonlyMap<string, number>): string =>
    [...terms].map(([name, by]) => `${by < 0 ? '-' : '+'} ${Math.abs(by)} ${name}`).join(' ');
  const lines = rows.map((one, i) => ` r${i}: ${sum(one.terms)} <= ${one.most}`);
  const names = [...variables].map((name) => ` ${name}`);
  return ['Minimize', ` obj: 0 ${names[0] ?? 'z'}`, 'Subject To', ...lines, 'Binary', ...names, 'End', ''].join('\n');
}
