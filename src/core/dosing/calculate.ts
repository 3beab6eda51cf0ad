import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { CalendarDate } from '../calendar.js';
import { derived } from '../derived.js';
import { ProductId, SourceId, SyringeId } from '../ids.js';
import { Role } from '../people.js';
import { above, exactly, plain, thousandthText } from '../quantity/exact.js';
import { readWeight } from '../quantity/read-weight.js';
import { gramsIn } from '../quantity/units.js';
import { writeNumber, writePerKg } from '../quantity/write.js';
import { no, type Outcome, ok, type Said, said } from '../said.js';
import { type DoseStep, doseOf } from './dose.js';
import { drawUp } from './draw-up.js';
import { Exact, type FormularyDocument, Route, type Syringe } from './formulary.js';
import { type Gate, gate } from './gate.js';
import { plausibleWeight } from './plausible-weight.js';

/** An exact decimal; a JSON number is taken as it is written. */
const exact = z.union([Exact, z.number().nonnegative().transform(String).pipe(Exact)]);
// Asked of text that is no decimal too: a check that throws would end the whole run.
const positive = exact.refine((text) => !/^[0.]*$/.test(text), 'must be above 0');

/** A dose of a product of the formulary. */
const OfProduct = z.strictObject({
  /** Text with its unit, `1.5 lb`; without one it is grams. */
  weight: z.string().max(60),
  product: ProductId,
  /** Age in days; both ends when it is an estimate. */
  age_days: z.union([
    z.number().int().min(0),
    z.object({ youngest: z.number().int().min(0), oldest: z.number().int().min(0) }),
  ]),
  /** Hours since the weighing. */
  weighed_hours_ago: z.number().int().min(0).default(0),
  /** Syringes at hand; all of the formulary when left out. */
  syringes: z.array(SyringeId).optional(),
  /** Last day of the lot in the hand. */
  lot_expires_on: CalendarDate.optional(),
  /** Strength as the label in the hand says it. */
  strength_read: positive.optional(),
  /** The vial that was made up on the day. */
  made_up: z.strictObject({ mg_per_ml: positive, hours_ago: z.number().min(0) }).optional(),
  /** Recipe of the formulary by which it is diluted. */
  dilution: z.string().optional(),
  /** Doses the animal has had. */
  given: z
    .array(z.strictObject({ product: ProductId, hours_ago: z.number().min(0), ml: positive.optional() }))
    .default([]),
  role: Role.optional(),
  species: z.string().default('cat'),
});

/** A volume from figures on a label: exactly one of the four ways to say the amount. */
const OfFigures = z.strictObject({
  weight: z.string().max(60),
  mg_per_kg: positive.optional(),
  mg_per_lb: positive.optional(),
  ml_per_kg: positive.optional(),
  ml_per_lb: positive.optional(),
  strength_mg_per_ml: positive,
  syringe: z
    .strictObject({ capacity_ml: positive, mark_ml: positive, scale: z.enum(['mL', 'U-100', 'U-40']).default('mL') })
    .optional(),
  tolerance_percent: exact.default('10'),
});

/** One line in of the `dose` calculator. */
export const DoseInput = z.union([OfProduct, OfFigures]);
export type DoseInput = z.input<typeof DoseInput>;

/** One line out; amounts are exact decimals as text, up to six decimals. Of a product that is stopped there are none. */
export interface DoseOutput {
  readonly grams: string;
  readonly mg: string | null;
  readonly ml: string | null;
  readonly mg_per_kg: string | null;
  readonly drawn_ml: string | null;
  readonly mark: string | null;
  readonly syringe: string | null;
  /** In how many places it goes; `drawn_ml` is all of it, `mark` is one draw. */
  readonly places: number;
  /** Percent of the exact dose: rounding to the mark, what a sound syringe may be off, and both at their worst. */
  readonly errors: {
    readonly rounding_percent: string;
    readonly instrument_percent: string | null;
    readonly combined_percent: string | null;
    readonly dead_space_ml: string | null;
  } | null;
  readonly stopped: boolean;
  readonly gates: readonly Gate[];
  readonly trace: readonly DoseStep[];
}

export interface DoseContext {
  readonly formulary: FormularyDocument;
  readonly today: CalendarDate;
  /** The moment asked about, on the day asked about. */
  readonly now: string;
  /** What the hours of a line are counted back from, when that is earlier: the moment of the run. Left out: `now`. */
  readonly asked?: string;
}

/**
 * The `dose` calculator: parsed input and the formulary to one plain answer, or the sentence why not. It runs the same
 * dose engine as the round does. A weight with two readings is refused with that sentence.
 */
export function calculateDose(input: z.output<typeof DoseInput>, context: DoseContext): Outcome<DoseOutput> {
  const reading = readWeight(input.weight, 'g');
  if (reading.is !== 'weight') return { ok: false, why: reading.why };
  return 'product' in input
    ? ofProduct(input, reading.weight.grams, context)
    : ofFigures(input, reading.weight.exact_g);
}

function ofProduct(input: z.output<typeof OfProduct>, grams: number, context: DoseContext): Outcome<DoseOutput> {
  const { formulary, today, now } = context;
  // Asked about a later day, what was an hour ago is by then so many days older.
  const from = context.asked !== undefined && context.asked < now ? context.asked : now;
  const product = formulary.products.find((each) => each.id === input.product);
  if (product === undefined) return no('dose.product-unknown', { product: input.product });
  const ageDays =
    typeof input.age_days === 'number' ? { youngest: input.age_days, oldest: input.age_days } : input.age_days;
  if (ageDays.youngest > ageDays.oldest) return no('dose.age-reversed', ageDays);
  const stranger = input.given.find((one) => !formulary.products.some(({ id }) => id === one.product));
  if (stranger !== undefined) return no('dose.given-unknown', { product: stranger.product });
  // No cat of that age weighs so: asked about, as on the round.
  const check = input.species === 'cat' ? plausibleWeight(grams, { last: null, ageDays }) : null;
  const dose = doseOf({
    product,
    formulary,
    weighing: { grams, at: hoursBefore(from, input.weighed_hours_ago), doubtful: check?.doubtful === true },
    ageDays,
    today,
    now,
    syringes: input.syringes ?? allOf(formulary),
    species: input.species,
    lot: input.lot_expires_on === undefined ? null : { expiresOn: input.lot_expires_on, withdrawn: false },
    strengthRead: input.strength_read ?? null,
    madeUp:
      input.made_up === undefined
        ? null
        : { mg_per_ml: input.made_up.mg_per_ml, at: hoursBefore(from, input.made_up.hours_ago) },
    dilution: input.dilution ?? null,
    recent: input.given.map((one) => ({
      product: one.product,
      at: hoursBefore(from, one.hours_ago),
      volume_ul: one.ml === undefined ? null : exactly(one.ml).mul(1000).round().toNumber(),
    })),
    ...(input.role === undefined ? {} : { role: input.role }),
  });
  const gates = dose.gates.map((one) =>
    check?.doubtful === true && one.code === 'weight-doubtful' ? { ...one, why: check.why } : one,
  );
  if (dose.stopped) return ok({ ...withoutFigures, grams: String(grams), stopped: true, gates });
  return ok({
    grams: String(grams),
    mg: dose.exact_ug === null ? null : thousandthText(dose.exact_ug),
    ml: dose.unrounded_ul === null ? null : thousandthText(dose.unrounded_ul),
    mg_per_kg: dose.mgPerKg,
    drawn_ml: dose.total_ul === null ? null : thousandthText(dose.total_ul),
    mark: dose.drawn?.mark ?? null,
    syringe: dose.drawn?.syringeName ?? null,
    places: dose.places,
    errors:
      dose.drawn === null
        ? null
        : {
            rounding_percent: dose.drawn.errorPercent,
            instrument_percent: dose.measuring?.tolerancePercent ?? null,
            combined_percent: dose.measuring?.combinedPercent ?? null,
            dead_space_ml: dose.measuring === null ? null : thousandthText(dose.measuring.deadSpace_ul),
          },
    stopped: false,
    gates,
    trace: dose.trace,
  });
}

/** While a stop stands nothing is drawn: no amount, no mark, and no reasoning that ends in one. */
const withoutFigures = {
  mg: null,
  ml: null,
  mg_per_kg: null,
  drawn_ml: null,
  mark: null,
  syringe: null,
  places: 1,
  errors: null,
  trace: [],
} as const;

function ofFigures(input: z.output<typeof OfFigures>, grams: string): Outcome<DoseOutput> {
  const strength = exactly(input.strength_mg_per_ml);
  const ways = [
    input.mg_per_kg === undefined ? null : exactly(input.mg_per_kg).div(strength).div(gramsIn.kg),
    input.mg_per_lb === undefined ? null : exactly(input.mg_per_lb).div(strength).div(gramsIn.lb),
    input.ml_per_kg === undefined ? null : exactly(input.ml_per_kg).div(gramsIn.kg),
    input.ml_per_lb === undefined ? null : exactly(input.ml_per_lb).div(gramsIn.lb),
  ].filter((way) => way !== null);
  const [mlPerGram] = ways;
  if (mlPerGram === undefined || ways.length > 1) return no('dose.one-amount-wanted');
  const ul = mlPerGram.mul(grams).mul(1000);
  const ug = ul.mul(strength);
  const amounts = { grams, mg: plain(ug.div(1000)), ml: plain(ul.div(1000)), mg_per_kg: plain(ug.div(grams)) };
  const most = overAnyDose(amounts.mg_per_kg, plain(ul.div(grams)));
  if (most !== null)
    return ok({ ...withoutFigures, grams, stopped: true, gates: [gate('outside-band', 'stop', most)] });
  const nothing = { drawn_ml: null, mark: null, syringe: null, places: 1, errors: null };
  if (input.syringe === undefined) return ok({ ...amounts, ...nothing, stopped: false, gates: [], trace: [] });
  const rules = {
    route: 'by mouth' as const,
    rounding: 'nearest' as const,
    tolerancePercent: input.tolerance_percent,
    ceiling_ul: null,
    maxMark_ul: null,
  };
  const drawing = drawUp(ul, rules, [syringeOf(input.syringe)], []);
  if (!drawing.ok)
    return ok({ ...amounts, ...nothing, stopped: true, gates: [], trace: [{ what: drawing.why, source: null }] });
  const { volume_ul, mark, errorPercent } = drawing.drawn;
  const rounding = { rounding_percent: errorPercent, instrument_percent: null, combined_percent: null };
  const errors = { ...rounding, dead_space_ml: null };
  const drawn = { drawn_ml: plain(exactly(volume_ul).div(1000)), mark, syringe: null, places: 1, errors };
  return ok({ ...amounts, ...drawn, stopped: false, gates: [], trace: [] });
}

/**
 * Above the most that any single dose here comes to, whatever the label: 1000 mg per kg is the largest amount of the starter
 * formulary (dextrose), 30 mL per kg about half of what a cat has of blood (common practice, no source; ours).
 */
function overAnyDose(mgPerKg: string, mlPerKg: string): Said | null {
  if (!above(exactly(mgPerKg), '1000') && !above(exactly(mlPerKg), '30')) return null;
  return said('dose.gate.over-any-dose', { dose: writePerKg(mgPerKg), volume: writeNumber(mlPerKg) });
}

function syringeOf(given: NonNullable<z.output<typeof OfFigures>['syringe']>): Syringe {
  return {
    id: SyringeId.parse('given'),
    name: '',
    capacity_ul: exactly(given.capacity_ml).mul(1000).round().toNumber(),
    mark_ul: exactly(given.mark_ml).mul(1000).round().toNumber(),
    scale: given.scale,
    routes: [...Route.options],
    deadSpace_ul: null,
    source: SourceId.parse('given'),
    standing: 'read',
  };
}

const allOf = derived((formulary: FormularyDocument): readonly SyringeId[] => formulary.syringes.map(({ id }) => id));

/** Instants so many hours before the one now of a run; most lines ask for the same few. */
const before = new Map<string, string>();
function hoursBefore(now: string, hours: number): string {
  const key = `${hours} ${now}`;
  const known = before.get(key);
  if (known !== undefined) return known;
  const text = Temporal.Instant.from(now)
    .subtract({ minutes: Math.round(hours * 60) })
    .toString();
  if (before.size > 256) before.clear();
  before.set(key, text);
  return text;
}
