import { describe, expect, test } from 'vitest';
import type { WeightUnit } from '../../quantity/units.js';
import { type DecimalSign, provenSign } from './decimal-sign.js';
import { readFileWeight } from './file-weight.js';

const read = (cell: string, sign: DecimalSign | null, unit: WeightUnit | null) => {
  const reading = readFileWeight(cell, sign, unit);
  return reading.state === 'read' ? reading.weight.grams : reading.state === 'blank' ? 'blank' : reading.why.say;
};

describe('weights of a file (Verifies: IMP-R18)', () => {
  test.each([
    ['0,65', ',', 'kg', 650],
    ['1,2', ',', 'kg', 1200],
    ['1,234', ',', 'kg', 1234],
    ['1.234', '.', 'kg', 1234],
    ['1,234', '.', 'g', 1234],
    ['1.234', ',', 'g', 1234],
    ['1.234,5', ',', 'g', 1234],
    ['0,65', null, 'kg', 650],
    ['0.650', null, 'kg', 650],
    ['98', null, 'g', 98],
    ['650 g', null, 'kg', 650],
    ['3 kg', null, null, 3000],
    ['1 lb 8 oz', null, null, 680],
    ['', null, 'kg', 'blank'],
    ['n/a', null, 'kg', 'blank'],
    ['98', null, null, 'import.weight-without-unit'],
    ['1,234', null, 'kg', 'import.weight-two-readings'],
    ['1.234', null, 'g', 'import.weight-two-readings'],
    ['655', null, 'kg', 'import.weight-not-taken'],
    ['1..2', null, 'kg', 'import.weight-not-taken'],
    ['heavy', null, 'kg', 'import.weight-not-taken'],
    ['0', null, 'g', 'import.weight-not-taken'],
  ] as const)('"%s" with sign %s in %s', (cell, sign, unit, expected) => {
    expect(read(cell, sign, unit)).toBe(expected);
  });
  test.each([
    [['0,65', '1,234'], ','],
    [['1.25', '1,234'], '.'],
    [['1,234.5'], '.'],
    [['1.234.567'], ','],
    [['1,234', '2.345'], null],
    [['0,650'], ','],
    [['98', '105'], null],
    [['0,65', '0.65'], 'mixed'],
  ])('%j proves %s', (cells, sign) => {
    expect(provenSign(cells)).toBe(sign);
  });
});
