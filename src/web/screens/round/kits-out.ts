import type { Animal } from '../../../core/animal/animal.js';
import type { KitType } from '../../../core/dosing/formulary.js';
import { kitReady, type Readiness } from '../../../core/point-of-care/kit.js';
import type { Lot } from '../../../log/views/shelter.js';
import { msOf } from '../../clock.js';

/** Tests of one box that left the cold together, with how many of them have not been started. */
export interface KitsOut {
  readonly at: string;
  readonly left: number;
  readonly readiness: Readiness;
}

/** Tests taken out longer ago than this belong to another shift and are not offered; ours. */
const sameShift_ms = 12 * 3_600_000;

/**
 * What is left of the tests taken out of the cold from one box, oldest first. Every start uses up one of the oldest
 * that were out by then. `starts`: instants at which tests of this box were started.
 */
export function kitsOut(lot: Pick<Lot, 'outOfCold'>, kit: KitType, starts: readonly string[], now: string): KitsOut[] {
  const batches = lot.outOfCold
    .filter(({ at }) => msOf(now) - msOf(at) < sameShift_ms)
    .map(({ at, count }) => ({ at, left: count }))
    .sort((a, b) => (a.at < b.at ? -1 : 1));
  for (const start of [...starts].sort()) {
    const used = batches.find((batch) => batch.left > 0 && batch.at <= start);
    if (used !== undefined) used.left -= 1;
  }
  return batches
    .filter((batch) => batch.left > 0)
    .map((batch) => ({ ...batch, readiness: kitReady(kit, batch.at, now) }));
}

/** The test to take next: a warm one that is still good, the oldest first; else the one that is warm soonest. */
export function nextKit(out: readonly KitsOut[]): KitsOut | null {
  const ready = out.find((batch) => batch.readiness.is === 'ready');
  const warming = out.find((batch) => batch.readiness.is === 'warming');
  return ready ?? warming ?? out[0] ?? null;
}

/** Instants at which tests of a box were started, on whatever animal. */
export const startsOf = (lot: string, animals: Iterable<Animal>): string[] =>
  [...animals].flatMap((animal) =>
    animal.runs.flatMap((run) => (run.lot === lot && run.startedAt !== null ? [run.startedAt] : [])),
  );
