import type { Instance } from '../../src/core/route-plan/model/instance.js';
import { Round } from '../../src/core/route-plan/whole-round/round-shape.js';
import { madeSection } from '../../test/support/plan-families.js';

/**
 * Sections with litters of the mixed family, filled up to `animals` each with litters of four without a test. `people`:
 * how treater and holder work; as one where nothing is said.
 */
export function shelter(
  sections: number,
  tests: number,
  animals: number,
  people: (section: Instance) => Instance = (section) => section,
): Round {
  return Round.parse({
    sections: Array.from({ length: sections }, (_, s) => {
      const made = madeSection('mixed', tests, 60_000 + s);
      const own = made.litters.map((litter) => ({ id: litter.id, animals: litter.animals }));
      const missing = animals - own.reduce((sum, litter) => sum + litter.animals.length, 0);
      for (let from = 0; from < missing; from += 4) {
        const size = Math.min(4, missing - from);
        const ops = [
          { kind: 'injection', dur: 1 + (from % 2) },
          { kind: 'oral', dur: 1 },
        ];
        const filling = Array.from({ length: size }, (_, a) => ({
          id: `Y${from + a}`,
          tested: false,
          overdueDays: 0,
          ops,
        }));
        own.push({ id: `F${from}`, animals: filling });
      }
      const litters = own.map((litter) => ({
        id: `S${s} ${litter.id}`,
        animals: litter.animals.map((animal) => ({ ...animal, id: `S${s} ${animal.id}` })),
      }));
      const section = { ...made, id: `section ${s + 1}`, litters, test: { ...made.test, runningLimit: 2 } };
      return { section: people(section), don: 4, doff: 4, cartDisinfection: 6 };
    }),
  });
}
