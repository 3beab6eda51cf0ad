import type { LotId } from '../../core/ids.js';
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

const cache = new WeakMap<World, ReadonlyMap<LotId, LotUse>>();

/** Use of every lot, from the records of all animals. Pieces are doses, tests or chips. */
export function lotUse(world: World): ReadonlyMap<LotId, LotUse> {
  const before = cache.get(world);
  if (before !== undefined) return before;
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
  for (const lot of world.shelter.lots.values()) add(lot.id, lot.countedAt, {});
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
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:')) continue;
    for (const record of effective(records)) {
      if (record.kind === 'treatment-given') {
        add(record.body.lot, record.happenedAt, { used: 1, used_ul: record.body.volume_ul ?? 0 });
      } else if (record.kind === 'chip-implanted') {
        add(record.body.lot, record.happenedAt, { used: 1 });
      }
    }
  }
  cache.set(world, use);
  return use;
}

const latest = (a: string | null, b: string | null): string | null => (a === null ? b : b === null || a > b ? a : b);
