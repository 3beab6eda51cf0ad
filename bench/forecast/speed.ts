import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { sectionRanks } from '../../src/core/biosecurity/section.js';
import { CalendarDate } from '../../src/core/calendar.js';
import { forecast } from '../../src/core/protocol/engine/forecast.js';
import type { ProtocolInput } from '../../src/core/protocol/input.js';
import { cpuNow, figure, median, type Report } from '../report.js';
import type { Yardstick } from '../yardstick.js';
import { herd, recordsEach } from './animals.js';
import { formulary, protocol } from './documents.js';

const today = CalendarDate.parse('2026-06-15');
const batch = 500;

setFlagsFromString('--expose-gc');
const collect: unknown = runInNewContext('gc');
const sweep = (): void => {
  if (typeof collect === 'function') collect({ type: 'minor' });
};
const heapNow = (): number => {
  if (typeof collect === 'function') collect();
  return process.memoryUsage().heapUsed / 2 ** 20;
};

/** A million animals one after another; making them is not timed. Items are counted, so that none can be left out. */
export function speed(report: Report, yardstick: Yardstick, count: number): void {
  report.heading('### Forecast of many animals');
  const next = herd(protocol, formulary, today, 1);
  const inputOf = (at: number): ProtocolInput => ({
    animal: next(),
    formulary,
    rank: sectionRanks[at % sectionRanks.length] ?? null,
  });
  for (const input of Array.from({ length: 2_000 }, (_, at) => inputOf(at))) forecast(input, protocol, today);
  const rows: string[][] = [];
  const rates: number[] = [];
  const heaps: number[] = [];
  let items = 0;
  let done = 0;
  let sinceRow = 0;
  let msSinceRow = 0;
  const heapBefore = heapNow();
  while (done < count) {
    const inputs = Array.from({ length: batch }, (_, at) => inputOf(at));
    // What making them has left behind is swept away before the clock starts.
    sweep();
    const start = cpuNow();
    for (const input of inputs) items += forecast(input, protocol, today).length;
    const ms = cpuNow() - start;
    msSinceRow += ms;
    done += batch;
    sinceRow += batch;
    if (sinceRow >= count / 5) {
      yardstick.again();
      const rate = (sinceRow / msSinceRow) * 1000;
      rates.push(rate);
      heaps.push(heapNow());
      rows.push([
        done.toLocaleString('en'),
        figure(rate, 0),
        figure((msSinceRow / sinceRow) * 1000, 1),
        figure(heaps.at(-1) ?? 0, 1),
      ]);
      sinceRow = 0;
      msSinceRow = 0;
    }
  }
  if (items !== count * protocol.schedules.length) throw new Error('some schedules were left out');
  report.line(
    `${count.toLocaleString('en')} invented animals with ${recordsEach} records each against the whole starter protocol (${protocol.schedules.length} schedules), with dates, reasons and traces, on one core; heap after collection, at first ${figure(heapBefore, 1)} MiB:`,
  );
  report.table(['animals so far', 'animals a second', 'microseconds each', 'heap, MiB'], rows);
  report.goal('1,000 animals over the yardstick, median of the fifths', 1_000_000 / median(rates) / yardstick.ms(), 9);
  report.goal('heap at the end less heap at first, MiB', (heaps.at(-1) ?? 0) - heapBefore, 8);
  report.goal('cost of the last fifth against the first', (rates[0] ?? 0) / (rates.at(-1) ?? 1), 1.25);
}
