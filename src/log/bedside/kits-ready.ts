import type { Animal } from '../../core/animal/animal.js';
import { inOwnClock, type OwnClock } from '../../core/clocked.js';
import type { KitType } from '../../core/dosing/formulary.js';
import { kitReady, type Readiness } from '../../core/point-of-care/kit.js';
import { type BatchOut, batchesOut, type OutOfCold } from '../stock/kits-out.js';
import type { Lot } from '../views/shelter.js';

/** Tests of one box that left the cold together, with how far they are. */
export interface KitsOut extends BatchOut {
  readonly readiness: Readiness;
}

/** What is left of the tests taken out of the cold from one box, oldest first (`batchesOut`). */
export const kitsOut = (lot: OutOfCold, kit: KitType, starts: readonly string[], now: string): KitsOut[] =>
  batchesOut(lot, starts, now).map((batch) => ({ ...batch, readiness: kitReady(kit, batch.at, now) }));

/** The test to take next: a warm one that is still good, the oldest first; else the one that is warm soonest. */
export function nextKit(out: readonly KitsOut[]): KitsOut | null {
  const ready = out.find((batch) => batch.readiness.is === 'ready');
  const warming = out.find((batch) => batch.readiness.is === 'warming');
  return ready ?? warming ?? out[0] ?? null;
}

/** Instants at which tests of a box were started, on whatever animal and device, by this device's clock. */
export const startsOf = (lot: string, animals: Iterable<Animal>, own: OwnClock): string[] =>
  [...animals].flatMap((animal) =>
    animal.runs.flatMap((run) => (run.lot === lot && run.start !== null ? [inOwnClock(run.start, own).at] : [])),
  );

/** The same box with the times at which tests left the cold by this device's clock. */
export const outByOwnClock = (lot: Lot, own: OwnClock): OutOfCold => ({
  outOfCold: lot.outOfCold.map(({ out, count }) => ({ at: inOwnClock(out, own).at, count })),
});
