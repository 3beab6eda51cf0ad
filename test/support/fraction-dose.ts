/**
 * A dose worked out a second time, with nothing of the project's own arithmetic: fractions of whole numbers, kept exact
 * from the weight to the mark. Slow and plain on purpose.
 */
export interface Fraction {
  readonly n: bigint;
  readonly d: bigint;
}

const whole = (n: number | bigint): Fraction => ({ n: BigInt(n), d: 1n });
const times = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.n, d: a.d * b.d });
const over = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.d, d: a.d * b.n });
const minus = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.d - b.n * a.d, d: a.d * b.d });
const more = (a: Fraction, b: Fraction): boolean => a.n * b.d > b.n * a.d;
const size = (a: Fraction): Fraction => ({ n: a.n < 0n ? -a.n : a.n, d: a.d });

/** A fraction out of a plain decimal such as 56.8. */
export function fractionOf(text: string): Fraction {
  const [before = '0', after = ''] = text.split('.');
  return { n: BigInt(before + after), d: 10n ** BigInt(after.length) };
}

/** Plain decimal text with so many decimals, half away from zero, without zeros at the end. */
export function decimalOf({ n, d }: Fraction, places: number): string {
  const scale = 10n ** BigInt(places);
  const magnitude = ((n < 0n ? -n : n) * scale * 2n + d) / (d * 2n);
  const digits = magnitude.toString().padStart(places + 1, '0');
  const cut = digits.length - places;
  const text = `${digits.slice(0, cut)}.${digits.slice(cut)}`.replace(/\.?0+$/, '');
  return n < 0n && magnitude > 0n ? `-${text}` : text;
}

type PlainRow = { readonly ml?: string | undefined } & (
  | { readonly from_g: number; readonly to_g: number }
  | { readonly from_lb: string; readonly to_lb: string; readonly over: boolean; readonly through: boolean }
);

/** Pounds in whole grams, half-way down. */
const poundsIn = (lb: string): bigint => multiple(times(fractionOf(lb), fractionOf('453.59237')), 1n, false);
function holds(row: PlainRow, grams: number): boolean {
  if ('from_g' in row) return row.from_g <= grams && grams < row.to_g;
  const [from, to, is] = [poundsIn(row.from_lb), poundsIn(row.to_lb), BigInt(grams)];
  return (row.over ? is > from : is >= from) && (row.through ? is <= to : is < to);
}

export interface PlainProduct {
  readonly strength: string | null;
  readonly dose:
    | { readonly by: 'mg-per-kg' | 'mg-per-lb'; readonly usual: string }
    | { readonly by: 'ml-per-weight'; readonly ml: string; readonly per: 'lb' | 'kg' }
    | {
        readonly by: 'bands';
        readonly bands: readonly PlainRow[];
      }
    | { readonly by: 'order' }
    | { readonly by: 'fixed'; readonly ml?: string | undefined };
  readonly low: string | null;
  readonly high: string | null;
  /** Never over so many mg per kg; null for no such end. */
  readonly end: string | null;
  /** The least of the label, in its own unit; null where it names none. */
  readonly least: { readonly amount: string; readonly unit: string } | null;
  readonly down: boolean;
  readonly tolerancePercent: string;
  readonly route: string;
  /** Most at one place, mL per kg, and how many places; null: one place whatever the volume. */
  readonly perSite: { readonly most_ml_per_kg: string; readonly sites: number } | null;
}
export interface PlainSyringe {
  readonly id: string;
  readonly capacity_ul: number;
  readonly mark_ul: number;
  readonly routes: readonly string[];
}
export interface PlainFloor {
  readonly below_ul: number;
  readonly severity: string;
  readonly maxMark_ul: number | null;
}

/** When a mark inside the limits is drawn although none lies within the tolerance; ends are out. */
export interface PlainInBand {
  readonly over: string;
  readonly under: string;
}

export interface SecondAnswer {
  readonly ul: Fraction;
  readonly places: number;
  readonly syringe: string | null;
  readonly volume_ul: number | null;
  readonly errorPercent: string | null;
}

/** The exact volume in microlitres by the product's rule, or null when the rule gives none at this weight. */
export function exactVolume(product: PlainProduct, grams: number): Fraction | null {
  const { dose, strength } = product;
  switch (dose.by) {
    case 'mg-per-kg':
      return strength === null ? null : over(times(fractionOf(dose.usual), whole(grams)), fractionOf(strength));
    case 'mg-per-lb':
      return strength === null
        ? null
        : over(
            over(times(times(fractionOf(dose.usual), whole(1000)), whole(grams)), fractionOf('453.59237')),
            fractionOf(strength),
          );
    case 'order':
      return null;
    case 'ml-per-weight': {
      const unit = dose.per === 'kg' ? whole(1000) : fractionOf('453.59237');
      return over(times(times(fractionOf(dose.ml), whole(1000)), whole(grams)), unit);
    }
    case 'bands': {
      const band = dose.bands.find((one) => holds(one, grams));
      return band?.ml === undefined ? null : times(fractionOf(band.ml), whole(1000));
    }
    case 'fixed':
      return dose.ml === undefined ? null : times(fractionOf(dose.ml), whole(1000));
  }
}

/** The multiple of a mark: the lower one, or the nearer one with half-way down. */
function multiple(ul: Fraction, mark: bigint, down: boolean): bigint {
  const below = ul.n / (ul.d * mark);
  if (down) return below * mark;
  const twiceRest = (ul.n - below * mark * ul.d) * 2n;
  return (twiceRest > mark * ul.d ? below + 1n : below) * mark;
}

export function secondAnswer(
  product: PlainProduct,
  grams: number,
  syringes: readonly PlainSyringe[],
  floors: readonly PlainFloor[],
  inBand: PlainInBand | null,
): SecondAnswer | null {
  const ul = exactVolume(product, grams);
  if (ul === null) return null;
  const most = product.perSite === null ? null : times(fractionOf(product.perSite.most_ml_per_kg), whole(grams));
  let places = 1;
  while (most !== null && more(ul, times(most, whole(places)))) places += 1;
  if (product.perSite !== null && places > product.perSite.sites) {
    return { ul, places, syringe: null, volume_ul: null, errorPercent: null };
  }
  const part = over(ul, whole(places));
  const floor = floors.filter((one) => more(whole(one.below_ul), part)).sort((a, b) => a.below_ul - b.below_ul)[0];
  const ceilings: Fraction[] = most === null ? [] : [most];
  if (product.high !== null && product.strength !== null) {
    const high = over(times(fractionOf(product.high), whole(grams)), fractionOf(product.strength));
    ceilings.push(over(more(ul, high) ? ul : high, whole(places)));
  }
  const ceiling = ceilings.sort((a, b) => (more(a, b) ? 1 : -1))[0] ?? null;
  let least: Fraction | null = null;
  if (product.low !== null && product.strength !== null) {
    const low = over(times(fractionOf(product.low), whole(grams)), fractionOf(product.strength));
    if (!more(low, ul)) least = over(low, whole(places));
  }
  const tolerance = fractionOf(product.tolerancePercent);
  for (const one of [...syringes].sort((a, b) => a.capacity_ul - b.capacity_ul || a.mark_ul - b.mark_ul)) {
    if (!one.routes.includes(product.route)) continue;
    if (floor !== undefined && floor.maxMark_ul !== null && one.mark_ul > floor.maxMark_ul) continue;
    let volume = multiple(part, BigInt(one.mark_ul), product.down);
    if (ceiling !== null && more(whole(volume), ceiling)) volume = multiple(ceiling, BigInt(one.mark_ul), true);
    if (least !== null && more(least, whole(volume))) {
      volume += BigInt(one.mark_ul);
      if (product.down || (ceiling !== null && more(whole(volume), ceiling))) continue;
    }
    if (volume === 0n || volume > BigInt(one.capacity_ul)) continue;
    const error = over(times(minus(whole(volume), part), whole(100)), part);
    if (more(size(error), tolerance)) continue;
    return { ul, places, syringe: one.id, volume_ul: Number(volume), errorPercent: decimalOf(error, 2) };
  }
  const found =
    floor?.severity === 'stop' || inBand === null
      ? null
      : nearestInside(product, grams, part, places, syringes, floors, inBand);
  if (found !== null) {
    const error = over(times(minus(whole(found.volume), part), whole(100)), part);
    return { ul, places, syringe: found.id, volume_ul: Number(found.volume), errorPercent: decimalOf(error, 2) };
  }
  return { ul, places, syringe: null, volume_ul: null, errorPercent: null };
}

/** Every mark of every syringe is tried; the nearest inside both ends is the answer, of two the one further inside. */
function nearestInside(
  product: PlainProduct,
  grams: number,
  part: Fraction,
  places: number,
  syringes: readonly PlainSyringe[],
  floors: readonly PlainFloor[],
  inBand: PlainInBand,
): { readonly id: string; readonly volume: bigint } | null {
  const { low, high, strength, end, least, perSite } = product;
  if (low === null || high === null || strength === null) return null;
  const one = (mgPerKg: string): Fraction =>
    over(over(times(fractionOf(mgPerKg), whole(grams)), fractionOf(strength)), whole(places));
  const bottoms = [one(low)];
  if (least !== null) {
    const unit = least.unit.endsWith('lb') ? fractionOf('453.59237') : whole(1000);
    const all = over(times(times(fractionOf(least.amount), whole(1000)), whole(grams)), unit);
    bottoms.push(over(least.unit.startsWith('mL') ? all : over(all, fractionOf(strength)), whole(places)));
  }
  const tops = [one(high)];
  if (end !== null) tops.push(one(end));
  if (perSite !== null) tops.push(times(fractionOf(perSite.most_ml_per_kg), whole(grams)));
  const inside = (ul: Fraction): boolean =>
    bottoms.every((bottom) => !more(bottom, ul)) && tops.every((top) => !more(ul, top));
  if (!inside(part)) return null;
  const far = (ul: Fraction): Fraction =>
    [...bottoms.map((bottom) => minus(ul, bottom)), ...tops.map((top) => minus(top, ul))].reduce((a, b) =>
      more(a, b) ? b : a,
    );
  let best: { readonly id: string; readonly volume: bigint } | null = null;
  for (const syringe of [...syringes].sort((a, b) => a.capacity_ul - b.capacity_ul || a.mark_ul - b.mark_ul)) {
    if (!syringe.routes.includes(product.route)) continue;
    for (let volume = syringe.mark_ul; volume <= syringe.capacity_ul; volume += syringe.mark_ul) {
      const ul = whole(volume);
      const twice = !more(times(part, fractionOf(inBand.under)), ul) || !more(ul, times(part, fractionOf(inBand.over)));
      if (twice || !inside(ul) || (product.down && more(ul, part))) continue;
      const floor = floors.filter((each) => more(whole(each.below_ul), ul)).sort((a, b) => a.below_ul - b.below_ul)[0];
      if (floor?.severity === 'stop' || (floor?.maxMark_ul ?? volume) < syringe.mark_ul) continue;
      const [is, was] = [size(minus(ul, part)), best === null ? null : size(minus(whole(best.volume), part))];
      const nearer = was === null || more(was, is);
      const same = was !== null && !more(is, was) && best !== null && more(far(ul), far(whole(best.volume)));
      if (nearer || same) best = { id: syringe.id, volume: BigInt(volume) };
    }
  }
  return best;
}
