import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';

/** What a benchmark says: tables as they go to docs/benchmarks.md, and goals that are met or missed. */
export interface Report {
  readonly heading: (text: string) => void;
  readonly line: (text: string) => void;
  readonly table: (head: readonly string[], rows: readonly (readonly (string | number)[])[]) => void;
  readonly goal: (text: string, seen: number, most: number) => void;
  readonly end: () => boolean;
}

const file = 'docs/benchmarks.md';

/** Everything is printed; with `write` it also replaces the part of docs/benchmarks.md between this name's marks. */
export function reportFor(name: string, write: boolean): Report {
  const lines: string[] = [];
  const goals: { text: string; seen: number; most: number; met: boolean }[] = [];
  const line = (text: string): void => {
    lines.push(text);
    process.stdout.write(`${text}\n`);
  };
  const table: Report['table'] = (head, rows) => {
    line('');
    line(`| ${head.join(' | ')} |`);
    line(`| ${head.map((_, i) => (i === 0 ? '---' : '---:')).join(' | ')} |`);
    for (const row of rows) line(`| ${row.join(' | ')} |`);
    line('');
  };
  const heading = (text: string): void => {
    line('');
    line(text);
    line('');
  };
  return {
    heading,
    line,
    table,
    goal: (text, seen, most) => {
      goals.push({ text, seen, most, met: seen <= most });
    },
    end: () => {
      heading('### Goals');
      table(
        ['goal', 'at most', 'seen', ''],
        goals.map((one) => [one.text, figure(one.most), figure(one.seen), one.met ? 'met' : '**missed**']),
      );
      if (write) save(name, lines.join('\n').replace(/\n{3,}/g, '\n\n'));
      return goals.every((one) => one.met);
    },
  };
}

function save(name: string, text: string): void {
  const [from, to] = [`<!-- ${name}: begin -->`, `<!-- ${name}: end -->`];
  const page = readFileSync(file, 'utf8');
  const [start, end] = [page.indexOf(from), page.indexOf(to)];
  if (start < 0 || end < start) throw new Error(`${file} has no marks for ${name}`);
  writeFileSync(file, `${page.slice(0, start + from.length)}\n${text.trim()}\n${page.slice(end)}`);
}

export const figure = (value: number, decimals = 3): string => String(Number(value.toFixed(decimals)));
export const percent = (share: number, decimals = 2): string => `${figure(share * 100, decimals)} %`;
export const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
export const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
export const largest = (values: readonly number[]): number => Math.max(...values);

/** CPU milliseconds of this process, its compiler and collector threads included: other programs do not count. */
export const cpuNow = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** A budget of so many CPU milliseconds from now. */
export const within = (ms: number): (() => boolean) => {
  const start = cpuNow();
  return () => cpuNow() - start < ms;
};

export function environment(): string {
  const [cpu] = cpus();
  const load = loadavg()
    .map((one) => figure(one, 1))
    .join(', ');
  return `Node ${process.versions.node}, ${cpu?.model.trim() ?? 'unknown processor'}, ${cpus().length} cores, load ${load} at the start. Times are CPU time of the process with its compiler and collector threads.`;
}
