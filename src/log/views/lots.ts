import { derived } from '../../core/derived.js';
import { deadSpaceOf } from '../../core/dosing/instrument.js';
import type { LotId, SyringeId } from '../../core/ids.js';
import { effective } from './effective.js';
import type { World } from './world.js';

/** What has been taken from a lot since it was last counted. `left` may be negative: a mismatch is shown, not hidden. */
export interface LotUse {
  readonly used: number;
  readonly left: number;
  readonly used_ul: number;
  readonly testsRead: number;
  readonly testsInvalid: number;
  readonly lastInvalidAt: string | null;
}

/**
 * Use of every lot, from the records of all animals. Pieces are doses, tests, chips or syringes. Counted is what a record
 * says came out of that lot, and nothing else: a use whose lot nobody wrote down is taken from none.
 */
export const lotUse = derived((world: World): ReadonlyMap<LotId, LotUse> => {
  const use = new Map<LotId, LotUse>();
  const add = (id: LotId | null, at: string, by: Partial<Omit<LotUse, 'left'>>): void => {
    const lot = id === null ? undefined : world.shelter.lots.get(id);
    if (lot === undefined) return;
    const was = use.get(lot.id) ?? {
      used: 0,
      left: lot.pieces,
      used_ul: 0,
      testsRead: 0,
      testsInvalid: 0,
      lastInvalidAt: null,
    };
    const counts = at >= lot.countedAt;
    use.set(lot.id, {
      used: was.used + (counts ? (by.used ?? 0) : 0),
      left: was.left - (counts ? (by.used ?? 0) : 0),
      used_ul: was.used_ul + (counts ? (by.used_ul ?? 0) : 0),
      testsRead: was.testsRead + (by.testsRead ?? 0),
      testsInvalid: was.testsInvalid + (by.testsInvalid ?? 0),
      lastInvalidAt: latest(was.lastInvalidAt, by.lastInvalidAt ?? null),
    });
  };
  for (const { id, countedAt, receivedAt, prepared } of world.shelter.lots.values()) {
    add(id, countedAt, {});
    if (prepared !== null) add(prepared.syringeLot, receivedAt, { used: prepared.count });
  }
  for (const animal of world.animals.values()) {
    for (const run of animal.runs) {
      if (run.startedAt === null) continue;
      const failed = run.result === 'invalid';
      add(run.lot, run.startedAt, {
        used: 1,
        testsRead: run.readAt === null ? 0 : 1,
        testsInvalid: failed ? 1 : 0,
        lastInvalidAt: failed ? run.readAt : null,
      });
    }
  }
  const { formulary } = world.shelter;
  const syringes = new Map(formulary?.syringes.map((one) => [one.id, one]) ?? []);
  /** What stays in the syringe and its needle has left the vial too. */
  const lost_ul = (id: SyringeId | null): number => {
    const syringe = id === null ? undefined : syringes.get(id);
    return syringe === undefined ? 0 : deadSpaceOf(syringe, formulary?.instrument ?? null);
  };
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:')) continue;
    for (const record of effective(records)) {
      if (record.kind === 'treatment-given') {
        const { lot, volume_ul, syringe, syringeLot } = record.body;
        const taken_ul = volume_ul === null ? 0 : volume_ul + lost_ul(syringe);
        add(lot, record.happenedAt, { used: 1, used_ul: taken_ul });
        add(syringeLot, record.happenedAt, { used: 1 });
      } else if (record.kind === 'sample-drawn') {
        // A try that gave no blood has used its syringe up, too.
        add(record.body.syringeLot, record.happenedAt, { used: 1 });
      } else if (record.kind === 'chip-implanted') {
        add(record.body.lot, record.happenedAt, { used: 1 });
      } else if (record.kind === 'chip-discarded' && record.body.implant === null) {
        // One that had been implanted has left its box with the implant.
        add(record.body.lot, record.happenedAt, { used: 1 });
      }
    }
  }
  return use;
});

const latest = (a: string | null, b: string | null): string | null => (a === null ? b : b === null || a > b ? a : b);
