import type { Animal } from '../../../core/animal/animal.js';
import { dayNumber, dayOfInstant } from '../../../core/calendar.js';
import type { RecordId, RunId } from '../../../core/ids.js';
import { type BloodAllowance, bloodAllowance, type Draw } from '../../../core/point-of-care/blood.js';
import { known } from '../../../core/protocol/input.js';
import { effective } from '../effective.js';
import type { World } from '../world.js';

/** One draw of blood as it was recorded; failed and clotted ones too. */
export interface LedgerDraw extends Draw {
  readonly record: RecordId;
  readonly run: RunId;
  readonly usable: boolean;
}

export interface BloodLedger {
  /** All draws of the animal, oldest first. */
  readonly draws: readonly LedgerDraw[];
  /** The weighing that the limits rest on; null when it was never weighed. */
  readonly grams: number | null;
  /** Taken to have less blood because it is ill now. */
  readonly ill: boolean;
  /** Null without a weight, or when no signed formulary says how much may be drawn. */
  readonly allowance: BloodAllowance | null;
}

/**
 * How much blood has been taken from an animal and how much may still be, now. The lighter of a doubtful last weighing
 * and the one before it counts: what is not sure must not let more be drawn.
 */
export function bloodLedger(world: World, animal: Animal, now: string): BloodLedger {
  const draws = effective(world.bySubject.get(`animal:${animal.id}`) ?? []).flatMap((record): LedgerDraw[] =>
    record.kind === 'sample-drawn'
      ? [
          {
            record: record.id,
            run: record.body.run,
            at: record.happenedAt,
            volume_ul: record.body.volume_ul,
            usable: record.body.usable,
          },
        ]
      : [],
  );
  const last = animal.weighings.at(-1) ?? null;
  const before = last?.doubtful === true ? (animal.weighings.at(-2) ?? null) : null;
  const grams = last === null ? null : Math.min(last.grams, before?.grams ?? last.grams);
  const today = dayNumber(dayOfInstant(now, world.shelter.zone));
  const ill = known({ input: { animal }, today }, 'ill', today).state === 'present';
  const rules = world.shelter.formulary?.blood ?? null;
  const allowance = grams === null || rules === null ? null : bloodAllowance(grams, draws, now, rules, ill);
  return { draws, grams, ill, allowance };
}
