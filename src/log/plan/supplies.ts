import type { CalendarDate } from '../../core/calendar.js';
import type { KitTypeId, ScheduleId } from '../../core/ids.js';
import { type LeftTest, shareSupplies } from '../../core/route-plan/model/supplies.js';
import { type Said, said } from '../../core/said.js';
import { usableLots } from '../prepare/prepare.js';
import { readySyringesLeft } from '../stock/ready-syringes.js';
import type { World } from '../views/world.js';
import { kitFor } from './stop.js';

/** The tests that one animal would be drawn for. */
export interface TestsWanted {
  readonly animal: string;
  readonly overdueDays: number;
  readonly schedules: readonly ScheduleId[];
}

export interface ShortTests {
  /** The test of this animal by this schedule is left today. */
  readonly isLeft: (animal: string, schedule: ScheduleId) => boolean;
  /** Animals that are left without any of their tests. */
  readonly untested: readonly string[];
  /** What lacks, for whom, and how much more there would have to be. */
  readonly words: readonly Said[];
}

/**
 * Which tests there is a kit and a ready-prepared syringe for, the most overdue animals first. `inUse`: kit types of
 * blood that is drawn already and has the first claim.
 */
export function shortTests(
  world: World,
  wanted: readonly TestsWanted[],
  today: CalendarDate,
  inUse: readonly KitTypeId[] = [],
): ShortTests {
  const kinds = wanted.map(({ schedules }) => schedules.map((schedule) => kitFor(world, schedule)));
  const kits = new Map<string, number>();
  for (const kit of kinds.flat()) {
    const left = kit === null ? null : kitsLeft(world, kit.id, today);
    if (kit !== null && left !== null)
      kits.set(kit.id, Math.max(0, left - inUse.filter((one) => one === kit.id).length));
  }
  const readySyringes = wanted.length === 0 ? null : readySyringesLeft(world, today);
  const asked = wanted.map(({ animal, overdueDays }, i) => ({
    animal,
    overdueDays,
    kits: (kinds[i] ?? []).map((kit) => kit?.id ?? null),
  }));
  const left = shareSupplies(asked, { kits, readySyringes });
  const lefts = new Set(
    left.map(({ animal, test }) => `${animal} ${wanted.find((one) => one.animal === animal)?.schedules[test] ?? ''}`),
  );
  const isLeft = (animal: string, schedule: ScheduleId): boolean => lefts.has(`${animal} ${schedule}`);
  return {
    isLeft,
    untested: wanted.flatMap(({ animal, schedules }) =>
      schedules.length > 0 && schedules.every((schedule) => isLeft(animal, schedule)) ? [animal] : [],
    ),
    words: [...kitsInWords(left, asked, kits, kinds.flat()), ...syringesInWords(left, readySyringes)],
  };
}

/** Tests in usable boxes; null when no box of the kind was ever received, so that nothing is left out by ignorance. */
function kitsLeft(world: World, kitType: KitTypeId, today: CalendarDate): number | null {
  const known = [...world.shelter.lots.values()].some((lot) => lot.of.is === 'kit' && lot.of.kitType === kitType);
  if (!known) return null;
  const boxes = usableLots(world, (of) => of.is === 'kit' && of.kitType === kitType, today);
  return boxes.reduce((sum, { left }) => sum + left, 0);
}

type Asked = Parameters<typeof shareSupplies>[0];

function kitsInWords(
  left: readonly LeftTest[],
  asked: Asked,
  kits: ReadonlyMap<string, number>,
  kinds: readonly ({ readonly id: string; readonly name: string } | null)[],
): Said[] {
  return [...kits].flatMap(([kind, there]) => {
    const short = left.filter(
      (one) => one.lacks === 'kit' && asked.find(({ animal }) => animal === one.animal)?.kits[one.test] === kind,
    );
    if (short.length === 0) return [];
    const wanted = asked.reduce((sum, one) => sum + one.kits.filter((kit) => kit === kind).length, 0);
    return said('plan.short.kits', {
      kit: kinds.find((kit) => kit?.id === kind)?.name ?? kind,
      left: there,
      wanted,
      animals: { list: [...new Set(short.map((one) => one.animal))] },
      more: wanted - there,
    });
  });
}

function syringesInWords(left: readonly LeftTest[], ready: number | null): Said[] {
  const animals = [...new Set(left.flatMap((one) => (one.lacks === 'syringe' ? [one.animal] : [])))];
  if (animals.length === 0 || ready === null) return [];
  const wanted = ready + animals.length;
  return [said('plan.short.syringes', { left: ready, wanted, animals: { list: animals }, more: animals.length })];
}
