import type { Instance, PlanAnimal } from './instance.js';

export interface Supplies {
  /** Tests left in the boxes that go along; null when they do not run short. */
  readonly kits: number | null;
  /** Syringes made ready with anticoagulant. */
  readonly readySyringes: number | null;
}

/**
 * Who is tested when kits or ready-prepared syringes do not reach for all: the most overdue first, then in the order of
 * the section. The others are handled without their draw and test; an animal with nothing else to do is left out.
 */
export function withSupplies(
  instance: Instance,
  supplies: Supplies,
): { readonly instance: Instance | null; readonly untested: readonly string[] } {
  const most = Math.min(supplies.kits ?? Number.MAX_SAFE_INTEGER, supplies.readySyringes ?? Number.MAX_SAFE_INTEGER);
  const tested = instance.litters.flatMap((litter) => litter.animals.filter((animal) => animal.tested));
  const first = [...tested].sort((a, b) => b.overdueDays - a.overdueDays).slice(0, most);
  const left = new Set(tested.filter((animal) => !first.includes(animal)).map((animal) => animal.id));
  const litters = instance.litters.flatMap((litter) => {
    const animals = litter.animals.flatMap((animal): PlanAnimal[] => {
      if (!left.has(animal.id)) return [animal];
      const ops = animal.ops.slice(1);
      return ops.length === 0 ? [] : [{ ...animal, tested: false, ops }];
    });
    return animals.length === 0 ? [] : [{ ...litter, animals }];
  });
  return { instance: litters.length === 0 ? null : { ...instance, litters }, untested: [...left] };
}
