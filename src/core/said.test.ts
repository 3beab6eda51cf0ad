import { expect, expectTypeOf, test } from 'vitest';
import type { Messages } from '../words/en/index.js';
import { type After, type Key, type NamesOf, no, said, type ValuesOf } from './said.js';

// What the compiler takes and refuses; `tsc -b` reads it, and a line that it would take fails there.
test('a sentence has a key of the catalogue and exactly the values that its text names', () => {
  const age = { ageDays: 20 };
  expect(said('due.hold.age-unknown')).toEqual({ say: 'due.hold.age-unknown' });
  expect(no('due.hold.placed', { what: 'ill' })).toEqual({
    ok: false,
    why: { say: 'due.hold.placed', with: { what: 'ill' } },
  });
  const bad = [
    // @ts-expect-error no such key
    () => said('due.never'),
    // @ts-expect-error without its value
    () => said('due.hold.placed'),
    // @ts-expect-error with a value of another name
    () => said('due.hold.placed', { why: 'ill' }),
    // @ts-expect-error with one too many
    () => said('due.hold.placed', { what: 'ill', age }),
    // @ts-expect-error with values where there are none
    () => said('due.hold.age-unknown', { age }),
    // @ts-expect-error a plural chooses by a number
    () => said('due.order.days', { n: '2' }),
    // @ts-expect-error the halves of an instant come from an instant
    () => said('due.hold.test-running', { at: 'noon' }),
    // @ts-expect-error one of the two keys needs a value
    () => said(Math.abs(1) > 0 ? 'due.hold.age-unknown' : 'due.hold.placed'),
    // @ts-expect-error no message for every text
    () => said(`due.hold.${String(1)}`),
  ];
  expect(bad).toHaveLength(9);
});

test('names are read out of texts, choices and what stands in choices', () => {
  expectTypeOf<NamesOf<'due.hold.age-unknown'>>().toBeNever();
  expectTypeOf<NamesOf<'growth.age-hint'>>().toEqualTypeOf<'weight' | 'same' | 'from' | 'to' | 'table'>();
  expectTypeOf<NamesOf<'dose.pieces-part'>>().toEqualTypeOf<'whole' | 'part'>();
  expectTypeOf<NamesOf<'due.hold.test-running'>>().toEqualTypeOf<'at'>();
  expectTypeOf<ValuesOf<'dose.pieces-part'>['whole']>().toEqualTypeOf<number>();
  expectTypeOf<ValuesOf<'growth.age-hint', 'weight' | 'same'>>().toHaveProperty('table');
  expectTypeOf<'never-due'>().not.toExtend<After<'due.'>>();
  expectTypeOf<'placed'>().toExtend<After<'due.hold.'>>();
});

test('every text stands in one piece: nothing can be told of one that is put together', () => {
  type PutTogether = { [K in Key]: string extends Messages[K] ? K : never }[Key];
  expectTypeOf<PutTogether>().toBeNever();
});
