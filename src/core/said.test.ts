import { expect, expectTypeOf, test } from 'vitest';
import type { Messages } from '../words/en/index.js';
import { type After, type Given, type Key, no, type OtherValues, type SayValue, said, type ValuesOf } from './said.js';

type NamesOf<K extends Key> = Exclude<keyof ValuesOf<K>, ''>;

// What the compiler takes and refuses; `tsc -b` reads it, and what no longer holds fails there.
test('a sentence has a key of the catalogue and exactly the values that its text names', () => {
  expect(said('due.hold.age-unknown')).toEqual({ say: 'due.hold.age-unknown' });
  expect(no('due.hold.placed', { what: 'ill' })).toEqual({
    ok: false,
    why: { say: 'due.hold.placed', with: { what: 'ill' } },
  });
  expectTypeOf<'due.never'>().not.toExtend<Key>();
  expectTypeOf<`due.hold.${string}`>().not.toExtend<Key>();
  expectTypeOf<Given<'due.hold.age-unknown'>>().toEqualTypeOf<[]>();
  expectTypeOf<Given<'due.hold.placed'>>().toEqualTypeOf<[values: { readonly what: SayValue }]>();
  // Of two keys one may need a value: then it has to be there.
  expectTypeOf<[]>().not.toExtend<Given<'due.hold.age-unknown' | 'due.hold.placed'>>();
  expectTypeOf<[{ what: string }]>().toExtend<Given<'due.hold.age-unknown' | 'due.hold.placed'>>();
  // A plural chooses by a number, and the halves of an instant come from an instant.
  expectTypeOf<ValuesOf<'due.order.days'>>().toEqualTypeOf<{ readonly n: number }>();
  expectTypeOf<ValuesOf<'due.hold.test-running'>>().toEqualTypeOf<{ readonly at: { readonly instant: string } }>();
});

test('names are read out of texts, choices and what stands in choices', () => {
  expectTypeOf<NamesOf<'due.hold.age-unknown'>>().toBeNever();
  expectTypeOf<NamesOf<'growth.age-hint'>>().toEqualTypeOf<'weight' | 'same' | 'from' | 'to' | 'table'>();
  expectTypeOf<NamesOf<'dose.pieces-part'>>().toEqualTypeOf<'whole' | 'part'>();
  expectTypeOf<NamesOf<'due.hold.test-running'>>().toEqualTypeOf<'at'>();
  expectTypeOf<ValuesOf<'dose.pieces-part'>['whole']>().toEqualTypeOf<number>();
  expectTypeOf<OtherValues<'growth.age-hint', 'weight' | 'same'>>().toHaveProperty('table');
  expectTypeOf<'never-due'>().not.toExtend<After<'due.'>>();
  expectTypeOf<'placed'>().toExtend<After<'due.hold.'>>();
});

test('every text stands in one piece: nothing can be told of one that is put together', () => {
  type PutTogether = { [K in Key]: string extends Messages[K] ? K : never }[Key];
  expectTypeOf<PutTogether>().toBeNever();
});
