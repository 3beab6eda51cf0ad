/** What instrumented code calls. `MUTANT` names the one that is awake; `seen` notes which were reached at all. */
const awake = Number(process.env.MUTANT ?? 0);
export const seen = new Set();
const is = (id) => {
  if (awake === 0) seen.add(id);
  return awake === id;
};
globalThis.$ = {
  less: (id, a, b) => (is(id) ? a <= b : a < b),
  lessOrSame: (id, a, b) => (is(id) ? a < b : a <= b),
  more: (id, a, b) => (is(id) ? a >= b : a > b),
  moreOrSame: (id, a, b) => (is(id) ? a > b : a >= b),
  same: (id, a, b) => (is(id) ? a !== b : a === b),
  other: (id, a, b) => (is(id) ? a === b : a !== b),
  plus: (id, a, b) => (is(id) ? a - b : a + b),
  minus: (id, a, b) => (is(id) ? a + b : a - b),
  times: (id, a, b) => (is(id) ? a / b : a * b),
  and: (id, a, f) => (is(id) ? a || f() : a && f()),
  or: (id, a, f) => (is(id) ? a && f() : a || f()),
  orElse: (id, a, f) => (is(id) ? f() : (a ?? f())),
  not: (id, a) => (is(id) ? !!a : !a),
  not2: (id, a) => (is(id) ? !a : a),
  test: (id, a) => (is(id) ? !a : a),
  number: (id, n) => (is(id) ? n + 1 : n),
  name: (id, from, to) => (is(id) ? to : from),
  awake: (id) => !is(id),
};
