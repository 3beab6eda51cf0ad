import { readAt, sameValue } from './paths.js';

/** The parts of a protocol that are checked against each other. Structural, so that the schema can call it. */
interface Checked {
  readonly sources: readonly { readonly id: string }[];
  readonly schedules: readonly {
    readonly id: string;
    readonly series: readonly {
      readonly id: string;
      readonly targets: readonly { readonly id: string; readonly times: readonly string[] }[];
    }[];
    readonly holds: readonly { readonly id: string }[];
    readonly needsFirst: readonly { readonly schedule: string }[];
  }[];
  readonly choices: readonly {
    readonly id: string;
    readonly default: string;
    readonly chosen: string;
    readonly options: readonly {
      readonly id: string;
      readonly values: readonly Written[];
    }[];
  }[];
  readonly variants: readonly { readonly id: string; readonly values: readonly Written[] }[];
}

interface Written {
  readonly at: readonly string[];
  readonly value: unknown;
}

export interface DocumentProblem {
  readonly path: (string | number)[];
  readonly message: string;
}

/**
 * What is wrong with a protocol although each part of it has the right form: ids used twice, sources or schedules that
 * are not there, choices whose chosen values are not the values in force.
 */
export function documentProblems(document: Checked): DocumentProblem[] {
  const problems: DocumentProblem[] = [];
  const add = (path: (string | number)[], message: string): void => {
    problems.push({ path, message });
  };
  const sources = new Set(document.sources.map((source) => source.id));
  const schedules = new Set(document.schedules.map((schedule) => schedule.id));

  for (const id of twice(document.sources)) add(['sources'], `source ${id} is listed twice`);
  for (const id of twice(document.schedules)) add(['schedules'], `schedule ${id} is listed twice`);
  for (const id of twice(document.choices)) add(['choices'], `choice ${id} is listed twice`);
  named(document, new Set(['source']), (id, _, way) => {
    if (!sources.has(id)) add([...way()], `no source ${id} in the list`);
  });
  named(document.schedules, new Set(['schedule', 'of']), (id, key, way) => {
    const age = key === 'of' && (id === 'youngest' || id === 'oldest');
    if (!age && !schedules.has(id)) add(['schedules', ...way()], `no schedule ${id}`);
  });
  document.schedules.forEach((schedule, at) => {
    const path = ['schedules', at];
    for (const id of twice(schedule.series)) add(path, `series ${id} is there twice`);
    for (const id of twice(schedule.holds)) add(path, `hold ${id} is there twice`);
    for (const series of schedule.series) {
      for (const id of twice(series.targets)) add(path, `target ${id} is there twice`);
      for (const { id, times } of series.targets) {
        if (times.some((time, at) => time <= (times[at - 1] ?? ''))) {
          add(path, `times of target ${id} are not in order`);
        }
      }
    }
    if (schedule.needsFirst.some((needed) => needed.schedule === schedule.id))
      add(path, 'a schedule cannot wait for itself');
  });
  document.choices.forEach((choice, at) => {
    const path = ['choices', at];
    for (const id of twice(choice.options)) add(path, `option ${id} is there twice`);
    for (const id of [choice.default, choice.chosen]) {
      if (!choice.options.some((option) => option.id === id)) add(path, `no option ${id}`);
    }
    for (const option of choice.options) {
      for (const { at: where, value } of option.values) {
        const present = readAt(document, where);
        if (!present.found) add(path, `nothing at ${where.join(' / ')}`);
        else if (option.id === choice.chosen && !sameValue(value, present.value)) {
          add(path, `${where.join(' / ')} is not what option ${option.id} says`);
        }
      }
    }
  });
  for (const id of twice(document.variants)) add(['variants'], `variant ${id} is listed twice`);
  document.variants.forEach((variant, at) => {
    for (const { at: where } of variant.values) {
      if (!readAt(document, where).found) add(['variants', at], `nothing at ${where.join(' / ')}`);
    }
  });
  return problems;
}

function twice(list: readonly { readonly id: string }[]): string[] {
  const ids = list.map((one) => one.id);
  return ids.filter((id, index) => ids.indexOf(id) !== index);
}

type Way = readonly (string | number)[];

/** Every text under one of the keys, at any depth; values inside choices and variants are data and left out. */
function named(
  value: unknown,
  keys: ReadonlySet<string>,
  visit: (text: string, key: string, way: () => Way) => void,
): void {
  const way: (string | number)[] = [];
  const walk = (inside: unknown): void => {
    if (Array.isArray(inside)) {
      for (const [at, item] of inside.entries()) {
        way.push(at);
        walk(item);
        way.pop();
      }
    } else if (typeof inside === 'object' && inside !== null) {
      for (const [name, item] of Object.entries(inside)) {
        way.push(name);
        if (typeof item === 'string') {
          if (keys.has(name)) visit(item, name, () => [...way]);
        } else if (name !== 'value') walk(item);
        way.pop();
      }
    }
  };
  walk(value);
}
