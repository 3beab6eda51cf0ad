import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { type Counts, countsOf } from './ask.js';
import { ledgerOf, type Part, parts, publishedOf } from './value.js';

const page = new URL('../../../docs/reference.md', import.meta.url);

/** The table of docs/reference.md, as the ledger counts it. */
function table(): string {
  const rows = parts.map((part) => [part, countsOf(ledgerOf(part))] as const);
  const sum = (of: readonly Part[]): Counts => {
    const all = rows.filter(([part]) => of.includes(part)).map(([, counts]) => counts);
    const add = (key: keyof Counts) => all.reduce((so, one) => so + one[key], 0);
    return {
      values: add('values'),
      run: add('run'),
      inPart: add('inPart'),
      deviates: add('deviates'),
      notAsked: add('notAsked'),
    };
  };
  const line = (name: string, { values, run, inPart, deviates, notAsked }: Counts) =>
    `| ${name} | ${values} | ${run} | ${deviates} | ${notAsked} | ${inPart} |`;
  const given: readonly Part[] = ['dosing', 'microchip', 'operations', 'protocols'];
  return [
    '| file | values | run | deviating | not asked | of those asked, in part |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows.map(([part, counts]) => line(`\`published/${part}.json\``, counts)),
    line(`the first four`, sum(given)),
    line('all', sum(parts)),
  ].join('\n');
}

it('the page says how many published values are run, deviate and are not asked', () => {
  expect(readFileSync(page, 'utf8')).toContain(table());
});

it('an id stands in one file only', () => {
  const ids = parts.flatMap((part) => publishedOf(part).map(({ id }) => id));
  expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
});
