/**
 * The one memo of the house: what a pure function gives for its inputs is remembered, and its key is all of its inputs
 * and nothing else. Objects count by identity and are not kept alive by it; texts, numbers and null count by value, of
 * which each place remembers the last few.
 *
 * Whatever the work reads has to be among its inputs; what is not there cannot make an answer old. `values` is how many
 * texts or numbers are remembered beside each other at one place; the one asked for longest ago goes first.
 */
export function derived<I extends readonly unknown[], R>(work: (...inputs: I) => R, values = 4): (...inputs: I) => R {
  const root: Place = {};
  return (...inputs) => {
    let at = root;
    for (const input of inputs) at = next(at, input, values);
    at.answer ??= { is: work(...inputs) };
    return at.answer.is as R;
  };
}

/** A place on the way through the inputs; the last one holds the answer. */
interface Place {
  answer?: { readonly is: unknown };
  objects?: WeakMap<object, Place>;
  values?: Map<unknown, Place>;
}

function next(place: Place, input: unknown, values: number): Place {
  if (typeof input === 'object' && input !== null) {
    place.objects ??= new WeakMap();
    const known = place.objects.get(input);
    if (known !== undefined) return known;
    const made: Place = {};
    place.objects.set(input, made);
    return made;
  }
  place.values ??= new Map();
  const known = place.values.get(input) ?? {};
  // Put in anew, it stands last: the first is the one asked for longest ago.
  place.values.delete(input);
  place.values.set(input, known);
  const [oldest] = place.values.keys();
  if (place.values.size > values) place.values.delete(oldest);
  return known;
}

/** The same list for the same members in the same order, so that it can be an input itself. */
export function listOf<T extends object>(members: readonly T[]): readonly T[] {
  let at: Place = lists;
  for (const member of members) at = next(at, member, 0);
  at.answer ??= { is: [...members] };
  return at.answer.is as readonly T[];
}
const lists: Place = {};
