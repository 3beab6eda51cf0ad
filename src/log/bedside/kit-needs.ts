import type { CalendarDate } from '../../core/calendar.js';
import type { OwnClock } from '../../core/clocked.js';
import type { KitType } from '../../core/dosing/formulary.js';
import { kitFor } from '../prepare/item-needs.js';
import { isLeft } from '../views/round/is-left.js';
import type { RoundView } from '../views/round/round.js';
import { dueIn, type World } from '../views/world.js';
import { type KitsOut, kitsOut, outByOwnClock, startsOf } from './kits-ready.js';
import { type LotChoice, lotChoices } from './lot-choices.js';

/** What is known at a cage: the round and the records, and the time and the day by the clock of this device. */
interface AtHand {
  readonly view: RoundView;
  readonly world: World;
  readonly here: string;
  readonly today: CalendarDate;
  readonly clock: OwnClock;
}

/** A box of tests with what is out of the cold from it. */
export interface BoxOut extends LotChoice {
  readonly out: readonly KitsOut[];
}

/** Tests of one kind that this round still has to start, against those out of the cold. */
export interface KitNeed {
  readonly kit: KitType;
  readonly wanted: number;
  /** Out of the cold and not past its limit. */
  readonly out: number;
  /** When the last of them is warm; null when all are, or none is out. */
  readonly warmAt: string | null;
  readonly boxes: readonly BoxOut[];
}

/** What the round still needs of each kind of test, first-expiring box first. */
export function kitNeeds({ view, world, here, today, clock }: AtHand): KitNeed[] {
  const wanted = new Map<KitType, number>();
  for (const { animals } of view.stops) {
    for (const { animal, lines } of animals) {
      for (const line of lines) {
        if (line.action !== 'test' || !isLeft(line)) continue;
        const item = dueIn(world, animal, today).find((one) => one.schedule === line.schedule);
        const kit = item === undefined ? null : kitFor(world, item);
        if (kit !== null) wanted.set(kit, (wanted.get(kit) ?? 0) + 1);
      }
    }
  }
  return [...wanted].map(([kit, count]) => {
    const boxes = boxesOf({ world, here, today, clock }, kit);
    const usable = boxes.flatMap((box) => box.out).filter((batch) => batch.readiness.is !== 'out-too-long');
    const warming = usable.flatMap(({ readiness }) => (readiness.is === 'warming' ? [readiness.readyAt] : [])).sort();
    return {
      kit,
      wanted: count,
      out: usable.reduce((sum, batch) => sum + batch.left, 0),
      warmAt: warming.at(-1) ?? null,
      boxes,
    };
  });
}

export function boxesOf({ world, here, today, clock }: Omit<AtHand, 'view'>, kit: KitType): BoxOut[] {
  return lotChoices(world, (of) => of.is === 'kit' && of.kitType === kit.id, today).map((choice) => ({
    ...choice,
    out: kitsOut(outByOwnClock(choice.lot, clock), kit, startsOf(choice.lot.id, world.animals.values(), clock), here),
  }));
}
