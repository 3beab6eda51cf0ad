import { type AskedInParts, type InParts, withRests } from './in-parts.js';

/**
 * The one memo of the house: what a pure function gives for its inputs is remembered, and its key is all of its inputs
 * and nothing else. Objects count by identity; texts, numbers and null count by value, of which each place remembers the
 * last few. What is remembered goes with the first object among the inputs: put first what lives shortest.
 *
 * Whatever the work reads has to be among its inputs; what is not there cannot make an answer old. `values` is how many
 * texts or numbers are remembered beside each other at one place; the one asked for longest ago goes first.
 */
export function derived<I extends readonly unknown[], R>(work: (...inputs: I) => R, values = 4): (...inputs: I) => R {
  const placeOf = placesOf<I>(values);
  return (...inputs) => {
    const at = placeOf(inputs);
    at.answer ??= { is: work(...inputs) };
    return at.answer.is as R;
  };
}

/** A `derived` whose work can be laid aside between its parts: asked as any other, it runs to its end. */
export function derivedInParts<I extends readonly unknown[], R>(
  work: (...inputs: I) => InParts<R>,
  values = 4,
): AskedInParts<I, R> {
  const placeOf = placesOf<I>(values);
  return withRests(function* (...inputs: I): InParts<R> {
    const at = placeOf(inputs);
    if (at.answer === undefined) {
      const is = yield* work(...inputs);
      // Whoever asked during a rest has the answer already; it stays the same one.
      at.answer ??= { is };
    }
    return at.answer.is as R;
  });
}

/** Where the answer for some inputs is. */
function placesOf<I extends readonly unknown[]>(values: number): (inputs: I) => Place {
  const start = startsAt(values);
  return (inputs) => {
    let at = start(inputs[0]);
    for (let n = 1; n < inputs.length; n += 1) at = next(at, inputs[n], values);
    return at;
  };
}

/** A place on the way through the inputs; the last one holds the answer. */
interface Place {
  answer?: { readonly is: unknown };
  /** The object asked for last; the others are not kept alive. */
  held?: { readonly value: object; readonly place: Place };
  objects?: WeakMap<object, Place>;
  /** The value asked for last, which stands last in the map; there is no map while there is no other. */
  last?: { readonly value: unknown; readonly place: Place };
  values?: Map<unknown, Place>;
  /** For null, which is asked for often and needs no map. */
  none?: Place;
}

/** Made with an object it gives that object, so that a class on top of it can put a field of its own there. */
const Given = function given(this: unknown, one: object): object {
  return one;
} as unknown as new (
  one: object,
) => object;

/**
 * The place of a first input. On an object it lies on the object itself, in a field that nobody else can see: a map of
 * lists that come and go by the thousand costs more than what is worked out from them.
 */
function startsAt(values: number): (first: unknown) => Place {
  const root: Place = {};
  class Marked extends Given {
    readonly #place: Place = {};
    static placeOn(one: object): Place {
      if (#place in one) return one.#place;
      // An engine may refuse a new field on what is frozen, a hidden one too.
      if (!Object.isExtensible(one)) return nextObject(root, one);
      new Marked(one);
      return (one as Marked).#place;
    }
  }
  return (first) => (typeof first === 'object' && first !== null ? Marked.placeOn(first) : next(root, first, values));
}

function next(place: Place, input: unknown, values: number): Place {
  if (typeof input === 'object' && input !== null) return nextObject(place, input);
  if (input === null) {
    place.none ??= {};
    return place.none;
  }
  const { last } = place;
  if (last === undefined) {
    place.last = { value: input, place: {} };
    return place.last.place;
  }
  if (last.value === input) return last.place;
  place.values ??= new Map([[last.value, last.place]]);
  const known = place.values.get(input) ?? {};
  // Put in anew, it stands last: the first is the one asked for longest ago.
  place.values.delete(input);
  place.values.set(input, known);
  place.last = { value: input, place: known };
  if (place.values.size > values) {
    const [oldest] = place.values.keys();
    place.values.delete(oldest);
  }
  return known;
}

function nextObject(place: Place, input: object): Place {
  const { held } = place;
  if (held?.value === input) return held.place;
  if (held !== undefined) {
    place.objects ??= new WeakMap();
    place.objects.set(held.value, held.place);
  }
  place.held = { value: input, place: place.objects?.get(input) ?? {} };
  return place.held.place;
}

/** The same list for the same members in the same order, so that it can be an input itself. */
export function listOf<T extends object>(members: readonly T[]): readonly T[] {
  let at: Place = lists;
  for (const member of members) at = next(at, member, 0);
  at.answer ??= { is: [...members] };
  return at.answer.is as readonly T[];
}
const lists: Place = {};

/** A list as it was, and what came in among it. */
export interface Grown<T> {
  readonly was: readonly T[];
  readonly more: readonly T[];
}

/** What a list has grown by. */
const growthOf = derived((_list: object): { by: Grown<object> | null } => ({ by: null }));

/**
 * Note that a list is another one that has grown: the members of `was` in their order, with `more` among them. Gives the
 * list back. What was worked out from `was` may then be taken on (`growing`, `partBy`) instead of being worked out anew.
 */
export function grown<T extends object>(was: readonly T[], more: readonly T[], list: readonly T[]): readonly T[] {
  // Only one step back is kept, so that nothing drags along what it once was.
  growthOf(was).by = null;
  growthOf(list).by = { was, more };
  return list;
}

/**
 * A `derived` over a list that grows: `onwards` makes the answer out of the one for the list as it was and what came in,
 * or gives undefined where that does not do. Both ways have to give the same.
 */
export function growing<T extends object, I extends readonly unknown[], R>(
  whole: (list: readonly T[], ...inputs: I) => R,
  onwards: (before: R, grew: Grown<T>, list: readonly T[], ...inputs: I) => R | undefined,
  values = 4,
): (list: readonly T[], ...inputs: I) => R {
  const placeOf = placesOf<[readonly T[], ...I]>(values);
  return (list, ...inputs) => {
    const at = placeOf([list, ...inputs]);
    if (at.answer !== undefined) return at.answer.is as R;
    const by = growthOf(list).by as Grown<T> | null;
    const before = by === null ? undefined : placeOf([by.was, ...inputs]).answer;
    const on = by === null || before === undefined ? undefined : onwards(before.is as R, by, list, ...inputs);
    at.answer = { is: on === undefined ? whole(list, ...inputs) : on };
    return at.answer.is as R;
  };
}

/**
 * The members of a list that some question is about, as a list of their own; `is` is one function for one question. While
 * the list grows by others only, it stays the same list, and what was worked out from it stands.
 */
export function partBy<T extends object, P extends T>(is: (one: T) => one is P): (list: readonly T[]) => readonly P[] {
  return growing<T, [], readonly P[]>(
    (list) => list.filter(is),
    (before, { more }, list) => {
      const own = more.filter(is);
      return own.length === 0 ? before : (grown(before, own, list.filter(is)) as readonly P[]);
    },
  );
}

/** Something for each member of a list, worked out once for each while the list grows. */
export function eachOf<T extends object, I extends readonly unknown[], X extends object>(
  work: (one: T, ...inputs: I) => X,
): (list: readonly T[], ...inputs: I) => readonly X[] {
  return growing<T, I, readonly X[]>(
    (list, ...inputs) => list.map((one) => work(one, ...inputs)),
    (before, { was }, list, ...inputs) => {
      const more: X[] = [];
      let next = 0;
      const all = list.map((one): X => {
        const known = one === was[next] ? before[next] : undefined;
        if (known !== undefined) {
          next += 1;
          return known;
        }
        const made = work(one, ...inputs);
        more.push(made);
        return made;
      });
      return grown(before, more, all);
    },
  );
}
