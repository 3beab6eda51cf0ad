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
  const question = questionOf(values);
  const ask = (first: unknown, ...others: readonly unknown[]): R => {
    const memo = memoAt(question, first);
    const known = answerIn(memo, others, values);
    if (known !== none) return known as R;
    return remember(memo, others, values, work(...([first, ...others] as readonly unknown[] as I)));
  };
  return ask as unknown as (...inputs: I) => R;
}

/** That nothing is remembered; an answer may be null or undefined. */
const none: unique symbol = Symbol('none');

/** What one question remembers of one first input. */
interface Memo {
  /** The inputs behind the first that were asked for last, with their answer: mostly there are no others. */
  inputs: readonly unknown[];
  answer: unknown;
  /** The way to every answer, this one too; null while there is no other. */
  ways: Place | null;
}

function answerIn(memo: Memo, inputs: readonly unknown[], values: number): unknown {
  if (memo.answer === none || isSame(memo.inputs, inputs)) return memo.answer;
  if (memo.ways === null) {
    memo.ways = {};
    walk(memo.ways, memo.inputs, values).answer = { is: memo.answer };
  }
  const { answer } = walk(memo.ways, inputs, values);
  if (answer === undefined) return none;
  memo.inputs = inputs;
  memo.answer = answer.is;
  return answer.is;
}

function remember<R>(memo: Memo, inputs: readonly unknown[], values: number, answer: R): R {
  if (memo.ways !== null) walk(memo.ways, inputs, values).answer = { is: answer };
  memo.inputs = inputs;
  memo.answer = answer;
  return answer;
}

function isSame(one: readonly unknown[], other: readonly unknown[]): boolean {
  for (let n = 0; n < other.length; n += 1) if (one[n] !== other[n]) return false;
  return one.length === other.length;
}

function walk(from: Place, inputs: readonly unknown[], values: number): Place {
  let at = from;
  for (const input of inputs) at = next(at, input, values);
  return at;
}

/** A `derived` whose work can be laid aside between its parts: asked as any other, it runs to its end. */
export function derivedInParts<I extends readonly unknown[], R>(
  work: (...inputs: I) => InParts<R>,
  values = 4,
): AskedInParts<I, R> {
  const question = questionOf(values);
  return withRests(function* (...inputs: I): InParts<R> {
    const [first, ...others] = inputs as readonly unknown[];
    const known = answerIn(memoAt(question, first), others, values);
    if (known !== none) return known as R;
    const is = yield* work(...inputs);
    // Whoever asked during a rest has the answer already; it stays the same one.
    const memo = memoAt(question, first);
    const since = answerIn(memo, others, values);
    return since === none ? remember(memo, others, values, is) : (since as R);
  });
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

/** A function that remembers, by its number, and the memos of first inputs that are no objects. */
interface Question {
  readonly number: number;
  readonly ofValues: Map<unknown, Memo>;
  readonly values: number;
}
let questions = 0;
const questionOf = (values: number): Question => {
  questions += 1;
  return { number: questions, ofValues: new Map(), values };
};

const newMemo = (): Memo => ({ inputs: nothing, answer: none, ways: null });
const nothing: readonly unknown[] = [];

/** The memos of one object: the number of a question, then its memo, and so on. */
type Memos = (number | Memo)[];

/** Made with an object it gives that object, so that a class on top of it can put a field of its own there. */
const Given = function given(this: unknown, one: object): object {
  return one;
} as unknown as new (
  one: object,
) => object;

/**
 * The memos of an object lie on the object itself, in one field that nobody else can see: a map of lists that come and go
 * by the thousand costs more than what is worked out from them.
 */
class Marked extends Given {
  readonly #memos: Memos = [];
  static memosOf(one: object): Memos {
    if (#memos in one) return one.#memos;
    // An engine may refuse a new field on what is frozen, a hidden one too.
    if (!Object.isExtensible(one)) return memosOfFrozen(one);
    new Marked(one);
    return (one as Marked).#memos;
  }
}

const frozen = new WeakMap<object, Memos>();
function memosOfFrozen(one: object): Memos {
  const known = frozen.get(one) ?? [];
  frozen.set(one, known);
  return known;
}

function memoAt(question: Question, first: unknown): Memo {
  if (typeof first !== 'object' || first === null) return memoOfValue(question, first);
  const memos = Marked.memosOf(first);
  const { number } = question;
  for (let at = 0; at < memos.length; at += 2) if (memos[at] === number) return memos[at + 1] as Memo;
  const made = newMemo();
  memos.push(number, made);
  return made;
}

function memoOfValue({ ofValues, values }: Question, value: unknown): Memo {
  const known = ofValues.get(value) ?? newMemo();
  // Put in anew, it stands last: the first is the one asked for longest ago.
  ofValues.delete(value);
  ofValues.set(value, known);
  if (ofValues.size > values) {
    const [oldest] = ofValues.keys();
    ofValues.delete(oldest);
  }
  return known;
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
  const question = questionOf(values);
  return (list, ...inputs) => {
    const memo = memoAt(question, list);
    const known = answerIn(memo, inputs, values);
    if (known !== none) return known as R;
    const by = growthOf(list).by as Grown<T> | null;
    const before = by === null ? none : answerIn(memoAt(question, by.was), inputs, values);
    const on = by === null || before === none ? undefined : onwards(before as R, by, list, ...inputs);
    return remember(memo, inputs, values, on === undefined ? whole(list, ...inputs) : on);
  };
}

/**
 * The members of a list that some question is about, as a list of their own; `is` is one function for one question. While
 * the list grows by others only, it stays the same list, and what was worked out from it stands.
 */
export function partBy<T extends object, P extends T, I extends readonly unknown[] = []>(
  is: (one: T, ...inputs: I) => one is P,
): (list: readonly T[], ...inputs: I) => readonly P[] {
  const among = (list: readonly T[], inputs: I) => list.filter((one): one is P => is(one, ...inputs));
  const onwards = (before: readonly P[], { more }: Grown<T>, list: readonly T[], ...inputs: I) => {
    const own = among(more, inputs);
    return own.length === 0 ? before : (grown(before, own, among(list, inputs)) as readonly P[]);
  };
  const part: (list: readonly T[], ...inputs: I) => readonly P[] = growing((list, ...inputs) => {
    const by = growthOf(list).by as Grown<T> | null;
    // Asked about for the first time: the part of what it was is the same list for whatever it grows to next.
    return by === null ? among(list, inputs) : onwards(part(by.was, ...inputs), by, list, ...inputs);
  }, onwards);
  return part;
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
