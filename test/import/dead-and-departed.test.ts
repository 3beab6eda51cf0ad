import { describe, expect, test } from 'vitest';
import { readTable } from '../../src/core/intake/file/table.js';
import { imported } from './read-file.js';

// Words of shelters for an animal that has died or left: common practice, no source. Every animal is invented.
const verdictOf = (text: string) => {
  const { plan } = imported(readTable(text));
  const [row] = plan.rows;
  return {
    verdict: row?.verdict,
    asked: plan.mayTell.map(({ heading }) => heading),
    why: row?.reasons.map(({ say }) => say),
  };
};

describe('words for dead and departed (Verifies: IMP-R40)', () => {
  test.each([
    'passed away',
    'passed',
    'RIP',
    'R.I.P.',
    'put down',
    'PTS',
    'expired',
    'out',
    'gone',
    'sold',
    'picked up',
    'AWOL',
    'ADOPT',
    'Trf',
    'rainbow bridge',
    'crossed over',
    'owner collected',
    'removed',
    'missing',
    'escaped',
    'discharged',
    '†',
    '† 3 May',
    'moved on',
    'claimed',
    'signed out',
    'ran away',
    'no longer here',
    'closed',
    'Died in care',
    'picked up by owner',
    'sent to partner rescue',
  ])('status "%s"', (cell) => {
    expect(verdictOf(`Id,Species,Came in,Status\nA1,cat,2026-05-10,${cell}`)).toEqual({
      verdict: 'doubtful',
      asked: ['Status'],
      why: ['import.may-have-left'],
    });
  });
  test.each(
    [
      'Deaths',
      'RIP',
      'PTS',
      'Missing',
      'Escaped',
      'Discharged',
      '†',
      'Rainbow bridge',
      'Passed',
      'Gone',
      'Sold',
      'Picked up',
      'Owner collected',
      'Outgoing',
      'Closed',
      'Removed',
      'Crossed over',
      'Put down',
      'AWOL',
    ].flatMap(
      (heading) =>
        [
          [heading, 'x'],
          [heading, '2026-05-20'],
        ] as const,
    ),
  )('heading "%s" with "%s"', (heading, cell) => {
    const found = verdictOf(`Id,Species,Came in,${heading}\nA1,cat,2026-05-10,${cell}`);
    expect(found.verdict).not.toBe('accepted');
    expect(found).toEqual({ verdict: 'doubtful', asked: [heading], why: ['import.may-have-left'] });
  });
  test('where one cell of a column is asked about, every other one is open that does not plainly say "here"', () => {
    const text =
      'Id,Species,Came in,Status\nA1,cat,2026-05-10,sold\nA2,cat,2026-05-10,hw\nA3,cat,2026-05-10,in care\nA4,cat,2026-05-10,';
    const table = readTable(text);
    expect(imported(table).plan.rows.map((row) => row.verdict)).toEqual([
      'doubtful',
      'doubtful',
      'accepted',
      'accepted',
    ]);
    expect(imported(table, { tellsNothing: [3] }).plan.counts.accepted).toBe(4);
  });
  test.each([
    ['Status', 'available'],
    ['Stitches', 'removed 3 May, looks clean'],
    ['FeLV test', 'passed'],
    ['Rabies certificate', 'expired'],
    ['Intake reason', 'owner passed away'],
    ['Weight checked', 'out of date'],
  ])('"%s: %s" is no sign of it', (heading, cell) => {
    expect(verdictOf(`Id,Species,Came in,${heading}\nA1,cat,2026-05-10,"${cell}"`).verdict).toBe('accepted');
  });
});

describe('ages that cannot be (Verifies: IMP-R41)', () => {
  test.each([
    ['300 years', 'doubtful', 'unknown'],
    ['31 years', 'doubtful', 'unknown'],
    ['28 years', 'accepted', 'estimated'],
    ['400 months', 'doubtful', 'unknown'],
  ])('%s', (age, verdict, basis) => {
    const { rows } = imported(readTable(`Id,Species,Came in,Age on intake\nA1,cat,2026-05-10,${age}`)).plan;
    expect([rows[0]?.verdict, rows[0]?.animal?.born.basis]).toEqual([verdict, basis]);
    expect(rows[0]?.reasons.map(({ say }) => say)).toEqual(verdict === 'doubtful' ? ['import.age-too-old'] : []);
  });
});
