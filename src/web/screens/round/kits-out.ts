import type { Animal } from '../../../core/animal/animal.js';
import type { KitType } from '../../../core/dosing/formulary.js';
import { kitReady, type Readiness } from '../../../core/point-of-care/kit.js';
import { type BatchOut, batchesOut } from '../../../log/views/kits-out.js';
import type { Lot } from '../../../log/views/shelter.js';

/** Tests of one box that left the cold together, with how far they are. */
export interface KitsOut extends BatchOut {
  readonly readiness: Readiness;
}

/** What is left of the tests taken out of the cold from one box, oldest first (`batchesOut`). */
export const kitsOut = (lot: Pick<Lot, 'outOfCold'>, kit: KitType, starts: readonly string[], now: string): KitsOut[] =>
  batchesOut(lot, starts, now).map((batch) => ({ ...batch, readiness: kitReady(kit, batch.at, now) }));

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
