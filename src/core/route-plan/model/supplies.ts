/** The tests that one animal would have: one syringe for the draw, one kit for each test. */
export interface WantedTests {
  readonly animal: string;
  readonly overdueDays: number;
  /** The kind of kit of each test; null for one of which nobody knows how many are left. */
  readonly kits: readonly (string | null)[];
}

export interface TestSupplies {
  /** Tests left in the boxes that go along, by kind; a kind that is not named does not run short. */
  readonly kits: ReadonlyMap<string, number>;
  /** Syringes made ready with anticoagulant; null when they do not run short. */
  readonly readySyringes: number | null;
}

/** A test that is left today, by its place in `kits`, and what it lacks. */
export interface LeftTest {
  readonly animal: string;
  readonly test: number;
  readonly lacks: 'kit' | 'syringe';
}

/**
 * Who is tested when kits or ready-prepared syringes do not reach for all: the most overdue first, then in the order
 * given. Each draw takes one syringe however many tests are run from it; an animal none of whose kits is there is not drawn.
 */
export function shareSupplies(wanted: readonly WantedTests[], supplies: TestSupplies): LeftTest[] {
  const kits = new Map(supplies.kits);
  let syringes = supplies.readySyringes ?? Number.MAX_SAFE_INTEGER;
  const left: LeftTest[] = [];
  for (const { animal, kits: own } of [...wanted].sort((a, b) => b.overdueDays - a.overdueDays)) {
    const taken = new Map<string, number>();
    const there = own.map((kit) => {
      if (kit === null || !kits.has(kit)) return true;
      const before = taken.get(kit) ?? 0;
      taken.set(kit, before + 1);
      return (kits.get(kit) ?? 0) > before;
    });
    const drawn = there.includes(true) && syringes > 0;
    for (const [test, has] of there.entries()) {
      if (!has) left.push({ animal, test, lacks: 'kit' });
      else if (!drawn) left.push({ animal, test, lacks: 'syringe' });
    }
    if (!drawn) continue;
    syringes -= 1;
    for (const [test, kit] of own.entries())
      if (there[test] === true && kit !== null && kits.has(kit)) kits.set(kit, (kits.get(kit) ?? 0) - 1);
  }
  return left;
}
