import type { Animal, Weighing } from '../../core/animal/animal.js';
import { isOrderSchedule, orderNamed, type PlacedOrder } from '../../core/animal/vet-order.js';
import { ageDays, type CalendarDate, dayNumber } from '../../core/calendar.js';
import { derived, growing, listOf } from '../../core/derived.js';
import { asksForWeight } from '../../core/dosing/amount.js';
import { conditionGates, type Found } from '../../core/dosing/conditions.js';
import type { Product } from '../../core/dosing/formulary.js';
import type { Gate, GateCode, OpenedGate } from '../../core/dosing/gate.js';
import { labelGates, openedByWord, roleGates, speciesGates } from '../../core/dosing/label-gates.js';
import type { OrderedAmount } from '../../core/dosing/ordered.js';
import { AnimalId } from '../../core/ids.js';
import { foundAgainst } from '../../core/protocol/about-conditions.js';
import type { HoldKind } from '../../core/protocol/engine/holds.js';
import { couldBeHeld, stoodAgainst, stoodAgainstOrder } from '../../core/protocol/engine/stood-against.js';
import type { Said } from '../../core/said.js';
import { deskAndMedical, type Raise, type Raised, raisedBy, type ToldCode } from '../flag.js';
import { type LogRecord, subjectOf } from '../record.js';
import { dayOf, foldAnimal } from '../views/animal.js';
import { groundOn, roleAt } from '../views/documents/ground-on.js';
import { openedIn } from '../views/doses/opened.js';
import { openedOnLine, orderOfSchedule } from '../views/doses/ordered.js';
import { protocolFor } from '../views/due/due.js';
import { catalogues, inputOf } from '../views/engine-input.js';
import type { Ground } from '../views/ground.js';
import { stoodBefore } from '../views/just-before.js';
import { ofKinds } from '../views/parts.js';
import { amountFlags } from './amount-flags.js';

type Dose = LogRecord<'treatment-given'>;

/** What a reason makes of a dose: the flag and how much it asks. The label is asked product by product (`overLabel`). */
const flagOf = {
  placed: ['given-while-held', 'stop'],
  rule: ['given-against', 'stop'],
  unknown: ['given-not-ready', 'attention'],
  first: ['given-not-ready', 'attention'],
  weight: ['given-not-ready', 'attention'],
  label: null,
  // Asked product by product, as the label is (`conditionFlags`).
  condition: null,
  'built-in': null,
  over: ['given-order-over', 'stop'],
  'too-soon': ['given-order-too-soon', 'stop'],
} as const satisfies Record<Reason['is'], readonly [code: ToldCode, severity: Raised['severity']] | null>;

type HeldCode = NonNullable<(typeof flagOf)[Reason['is']]>[0];

/** Why a dose was not to be given at the time. */
interface Reason {
  readonly is: HoldKind | 'over' | 'too-soon';
  readonly why: Said;
}

/**
 * Every dose that went into an animal here, judged by what stood at the time it happened, whatever the device knew: the
 * fact stays, and one flag for each kind of reason tells those who decide.
 */
export function doseFlags(
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): readonly Raised[] {
  const doses = given(standing);
  if (doses.length === 0) return nothing;
  const { id, name, born, weighings, orders } = animal;
  const gates = opened(standing);
  const own = ofDoses(doses, gates, weighings, orders, ground, born, id, name);
  const seen = codes(noted(records));
  const held = heldAmong(doses, placed(records), seen, ground);
  const spoken = concernedAmong(doses, seen, ground);
  if (held.length + spoken.length === 0) return own.flat();
  return doses.flatMap((dose, at) => {
    const others = own[at] ?? nothing;
    const before = held.includes(dose) || spoken.includes(dose) ? stoodBefore(records, standing, dose) : [];
    return [
      ...(held.includes(dose) ? heldFlags(animal, before, dose, ground) : nothing),
      ...(spoken.includes(dose) ? conditionFlags(animal, before, dose, ground, gates) : nothing),
      ...others,
    ];
  });
}

const nothing: readonly Raised[] = [];

/** Doses that something may have held when they were given. */
const heldAmong = derived(
  (doses: readonly Dose[], placed: readonly LogRecord[], codes: ReadonlySet<string>, ground: Ground): readonly Dose[] =>
    doses.filter(
      (dose) => dose.body.outcome !== 'not-taken' && mayBeHeld(dose, groundOn(ground, dayOf(dose)), placed, codes),
    ),
);

/** What each dose has to show by itself, beside the weights and the orders on record. */
const ofDoses = derived(
  (
    doses: readonly Dose[],
    gates: readonly LogRecord[],
    weighings: Animal['weighings'],
    orders: Animal['orders'],
    ground: Ground,
    born: Animal['born'],
    id: AnimalId,
    name: string,
  ): readonly (readonly Raised[])[] =>
    doses.map((dose) => {
      if (dose.body.outcome === 'not-taken' || !dose.body.here) return nothing;
      const then = groundOn(ground, dayOf(dose));
      const product = productOf(dose, then);
      if (product === null) {
        if (then.formulary === null) return nothing;
        return raisedBy({ id, name }, (raise) => {
          raise('given-unlisted', 'stop', dose, deskAndMedical, { product: dose.body.product });
        });
      }
      const at = { weighings };
      const { order = null, amount = null } = orderFor({ orders }, dose) ?? {};
      return ofProduct(
        dose,
        then,
        wordsBefore(gates, dose),
        born,
        weighingOf(at, dose) ?? null,
        gramsAt(at, dose),
        order,
        amount,
        id,
        name,
      );
    }),
);

const orderFor = (animal: Pick<Animal, 'orders'>, dose: Dose) =>
  orderOfSchedule(animal, dose.body.schedule, dose.body.dueAt?.on ?? dayOf(dose));

const wordsBefore = (gates: readonly LogRecord[], { happenedAt }: Dose): readonly LogRecord[] =>
  gates.length === 0 ? gates : listOf(gates.filter((one) => one.happenedAt <= happenedAt));

const productOf = ({ body }: Dose, { formulary }: Ground): Product | null =>
  formulary?.products.find(({ id }) => id === body.product) ?? null;

const given = ofKinds('treatment-given');
const opened = ofKinds('gate-opened');

type Named = { readonly product: string };

function heldFlags(
  animal: Animal,
  before: readonly (readonly LogRecord[])[],
  dose: Dose,
  ground: Ground,
): readonly Raised[] {
  const then = groundOn(ground, dayOf(dose));
  const named = { product: productOf(dose, then)?.name ?? dose.body.product };
  const { schedule } = dose.body;
  const reasons = new Map<HeldCode, { readonly severity: Raised['severity']; readonly why: Said[] }>();
  for (const { is, why } of before.flatMap((records) => reasonsAgainst(dose, records, then))) {
    const flag = flagOf[is];
    if (flag === null) continue;
    const found = reasons.get(flag[0]) ?? { severity: flag[1], why: [] };
    if (!found.why.some((one) => JSON.stringify(one) === JSON.stringify(why))) found.why.push(why);
    reasons.set(flag[0], found);
  }
  return raisedBy(animal, (raise) => {
    if (schedule !== null && isOrderSchedule(schedule) && orderNamed(animal, schedule) === null) {
      raise('given-not-ordered', 'stop', dose, deskAndMedical, named);
    }
    for (const [code, { severity, why }] of reasons) {
      raise(code, severity, dose, deskAndMedical, { ...named, reason: { list: why } });
    }
  });
}

/** What the engine of the due list held against a dose, with the animal as its records had it just before. */
const reasonsAgainst = derived((dose: Dose, before: readonly LogRecord[], ground: Ground): readonly Reason[] => {
  const { schedule, product } = dose.body;
  if (!mayBeHeld(dose, ground, placed(before), codes(noted(before)))) return [];
  const animal = foldAnimal(AnimalId.parse(subjectOf(dose).id), before, ground);
  // What was given before it came here was not ours to hold.
  if (animal === null) return [];
  const input = inputOf(animal, ground);
  const protocol = protocolFor(ground, animal.section);
  const on = dayOf(dose);
  if (schedule !== null && isOrderSchedule(schedule)) {
    const order = orderNamed(animal, schedule);
    const against = order === null ? null : stoodAgainstOrder(input, protocol, order, on, dose.happenedAt);
    return against === null ? [] : [against];
  }
  if (protocol === null) return [];
  return stoodAgainst(input, protocol, { schedule, product }, on).map(({ is, hold }) => ({ is, why: hold.why }));
});

/**
 * Whether something could have held a dose of an animal with these placed holds, on which these codes were noted. Orders,
 * placed holds and switched variants are always looked at. With more holds and codes than stood before the dose it only
 * says more often that something may be.
 */
const mayBeHeld = derived(
  ({ body }: Dose, ground: Ground, placed: readonly LogRecord[], codes: ReadonlySet<string>): boolean => {
    const { schedule, product } = body;
    if (schedule !== null && isOrderSchedule(schedule)) return true;
    if (ground.variants.size > 0 || placed.length > 0) return true;
    return ground.protocol !== null && couldBeHeld(catalogues(ground), ground.protocol, { schedule, product }, codes);
  },
);

const placed = ofKinds('hold-placed');
const noted = ofKinds('observation-noted');

/** Everything that was ever noted. */
const codes = growing<ReturnType<typeof noted>[number], [], ReadonlySet<string>>(
  (records) => new Set(records.map(({ body }) => body.code)),
  (before, { more }) => (more.every(({ body }) => before.has(body.code)) ? before : undefined),
);

/** Doses of products that have a condition which can be so of an animal on which these codes were noted; most have none. */
const concernedAmong = derived((doses: readonly Dose[], noted: ReadonlySet<string>, ground: Ground): readonly Dose[] =>
  doses.filter((dose) => {
    const { outcome, here } = dose.body;
    const product = outcome === 'not-taken' || !here ? null : productOf(dose, groundOn(ground, dayOf(dose)));
    return product?.conditions.some(
      (one) => one.is !== 'seen' || one.unknown === 'hold' || one.codes.some((code) => noted.has(code)),
    );
  }),
);

/**
 * Conditions of the product that spoke against a dose as the animal's records had it just before, and that neither a word, its
 * order nor a person at the card had opened.
 */
function conditionFlags(
  animal: Animal,
  before: readonly (readonly LogRecord[])[],
  dose: Dose,
  ground: Ground,
  gates: readonly LogRecord[],
): readonly Raised[] {
  const then = groundOn(ground, dayOf(dose));
  const product = productOf(dose, then);
  if (product === null) return nothing;
  const words = openedOnLine(openedIn(wordsBefore(gates, dose)), orderFor(animal, dose)?.order ?? null, product.id);
  const found = before.flatMap((records) => foundBefore(dose, records, then));
  return raisedBy(animal, (raise) => {
    for (const { code, severity, why } of openedByWord(conditionGates(found), product, words, dayOf(dose))) {
      if (severity !== 'stop' || dose.body.passed.some(({ gate }) => gate === code)) continue;
      raise('given-against-label', 'stop', dose, deskAndMedical, { product: product.name, reason: why }, code);
    }
  });
}

const foundBefore = derived((dose: Dose, before: readonly LogRecord[], ground: Ground): readonly Found[] => {
  const animal = foldAnimal(AnimalId.parse(subjectOf(dose).id), before, ground);
  if (animal === null) return [];
  const on = dayNumber(dayOf(dose));
  return foundAgainst(inputOf(animal, ground), dose.body.product, on, on);
});

/** What one dose of a product has to show beside its label and the weight on record. */
const ofProduct = derived(
  (
    dose: Dose,
    ground: Ground,
    opened: readonly LogRecord[],
    born: Animal['born'],
    weighing: Weighing | null,
    grams: number | null,
    order: PlacedOrder | null,
    ordered: OrderedAmount | null,
    id: AnimalId,
    name: string,
  ): readonly Raised[] => {
    const product = ground.formulary?.products.find((one) => one.id === dose.body.product);
    if (product === undefined) return [];
    return raisedBy({ id, name }, (raise) =>
      productFlags(
        { born, weighing, grams, order, ordered },
        openedOnLine(openedIn(opened), order, product.id),
        dose,
        product,
        ground,
        { product: product.name },
        raise,
      ),
    );
  },
);

/** What is on record to judge a dose by. */
interface AtTheTime {
  readonly born: Animal['born'];
  readonly weighing: Weighing | null;
  readonly grams: number | null;
  /** What the order that it was given by says of the amount; null for a dose of the protocol. */
  readonly ordered: OrderedAmount | null;
  /** That order. */
  readonly order: PlacedOrder | null;
}

function productFlags(
  { born, weighing, grams, order, ordered }: AtTheTime,
  words: readonly OpenedGate[],
  dose: Dose,
  product: Product,
  ground: Ground,
  named: Named,
  raise: Raise,
): void {
  const { formulary } = ground;
  if (formulary === null) return;
  const { body } = dose;
  const on = dayOf(dose);
  const open = (gates: readonly Gate[]): Gate[] =>
    openedByWord(gates, product, words, on).filter(
      ({ code, severity }) => severity === 'stop' && !body.passed.some(({ gate }) => gate === code),
    );
  const stopped = (code: 'given-not-for-cats' | 'given-under-label', gates: readonly Gate[]): void => {
    for (const { code: which, why } of open(gates)) {
      raise(code, 'stop', dose, deskAndMedical, { ...named, reason: why }, which);
    }
  };
  stopped('given-not-for-cats', speciesGates(product, formulary, 'cat'));
  // Who works here no longer gives what anybody may, and nothing that asks for more.
  const left = ground.people.some(({ id, active }) => id === dose.by && !active) ? 'volunteer' : undefined;
  if (open(roleGates(product, roleAt(ground, dose.by, dose.happenedAt) ?? left)).length > 0) {
    raise('given-not-allowed', 'stop', dose, deskAndMedical, { ...named, person: { person: dose.by } });
  }
  stopped(
    'given-under-label',
    labelGates(product, formulary, { ...agesOn(born, on), species: 'cat', grams, today: on }),
  );
  const route = body.route.trim();
  const meant = order?.terms.route ?? product.route;
  if (route !== '' && route !== meant) {
    raise('given-other-way', 'stop', dose, deskAndMedical, { ...named, given: route, route: meant });
  }
  if (weighing?.doubtful === true && asksForWeight(product) && !body.passed.some(({ gate }) => gate === doubtGate)) {
    raise('given-doubtful-weight', 'stop', dose, deskAndMedical, { ...named, weight: { grams: weighing.grams } });
  }
  const passed = (code: GateCode): boolean =>
    body.passed.some(({ gate }) => gate === code) ||
    words.some((word) => word.product === product.id && word.until >= on && word.gates.includes(code));
  amountFlags({ dose, product, formulary, grams, ordered, ageDays: agesOn(born, on).ageDays }, named, passed, raise);
}

const agesOn = (born: Animal['born'], on: CalendarDate) => ({
  ageDays: { youngest: ageDays(born.latest, on), oldest: ageDays(born.earliest, on) },
});

const doubtGate: GateCode = 'weight-doubtful';

type Weighed = Pick<Animal, 'weighings'>;

/** The weighing that a dose names, else the one that stood last when it was given. */
const weighingOf = ({ weighings }: Weighed, { body, happenedAt }: Dose): Weighing | undefined =>
  (body.weight === null ? undefined : weighings.find(({ record }) => record === body.weight)) ??
  weighings[lastUpTo(weighings, happenedAt)];

/** The weight on record when it was given, a believed one before a doubtful one; what the dose itself says is no judge. */
function gramsAt({ weighings }: Weighed, { happenedAt }: Dose): number | null {
  const last = lastUpTo(weighings, happenedAt);
  for (let at = last; at >= 0; at -= 1) {
    const one = weighings[at];
    if (one !== undefined && !one.doubtful) return one.grams;
  }
  return weighings[last]?.grams ?? null;
}

/** Place of the last weighing up to an instant, in the order of happening; -1 when there is none. */
function lastUpTo(weighings: readonly Weighing[], instant: string): number {
  let [low, high] = [0, weighings.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((weighings[middle]?.at ?? '') <= instant) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
