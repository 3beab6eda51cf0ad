import { it } from 'vitest';
import { before, starter } from '../published/treatments.js';
it('probe', () => {
  const first='2026-03-01';
  const a = (testOn: string, born: string) => starter('felv-vaccine', { born, arrived: before(first, 30), seen: [{ code: 'felv-at-risk', on: before(first, 30) }],
    done: [{ on: testOn, result: 'negative' as const, of: 'felv-test' }, {on:first, product:'felv-vaccine'}] }).on('2026-04-20');
  console.log(JSON.stringify(a(before(first,1), before(first,420))));
  console.log(JSON.stringify(a(before(first,1), before(first,200))));
});
