import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { FormularyDocument, type KitType } from '../dosing/formulary.js';
import { bloodAllowance, tooMuchBlood } from './blood.js';
import { kitReady, lotsMatch } from './kit.js';
import { resultOf, type Seen } from './result.js';
import { phaseAt, windowOf } from './window.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const [starterKit] = starter.kits;
if (starterKit === undefined) throw new Error('the starter formulary has no kit');
const { blood } = starter;
if (blood === null) throw new Error('the starter formulary says nothing about blood');
const kit: KitType = { ...starterKit, readOpens_s: 600, readCloses_s: 900 };
const start = '2026-03-08T14:00:00Z';
/** The instant so many minutes and seconds after the start. */
const later = (minutes: number, seconds = 0, ms = 0): string => {
  const total = minutes * 60 + seconds;
  const two = (n: number) => String(n).padStart(2, '0');
  return `2026-03-08T${two(14 + Math.floor(total / 3600))}:${two(Math.floor(total / 60) % 60)}:${two(total % 60)}.${String(ms).padStart(3, '0')}Z`;
};

describe('warming (Verifies: TEST-R1)', () => {
  test('counts from the cold to the exact minute', () => {
    expect(kitReady(kit, start, later(29, 59, 500))).toMatchObject({ is: 'warming', remaining_s: 1 });
    expect(kitReady(kit, start, later(30))).toEqual({ is: 'ready', until: null });
  });
  test('knows a limit, and does not guess an unknown time', () => {
    const limited = { ...kit, warmLimitMinutes: 60 };
    expect(kitReady(limited, start, later(60))).toMatchObject({ is: 'ready' });
    expect(kitReady(limited, start, later(60, 1))).toMatchObject({ is: 'out-too-long' });
    expect(kitReady(kit, null, start)).toMatchObject({ is: 'unknown' });
    expect(kitReady({ ...kit, warmMinutes: 0 }, null, start)).toEqual({ is: 'ready', until: null });
  });
});

describe('lots (Verifies: TEST-R2)', () => {
  test.each([
    ['A1', 'A1', 'A1'],
    ['a1 ', ' A1', 'A1'],
    ['A1', 'A2', 'test.lots-differ'],
    ['0012', '12', 'test.lots-differ'],
    ['', 'A1', 'test.lot-missing-kit'],
    ['A1', ' ', 'test.lot-missing-conjugate'],
  ])('box %j with bottle %j: %s', (box, bottle, expected) => {
    const answer = lotsMatch(kit, box, bottle);
    expect(answer.ok ? answer.value : answer.why.say).toBe(expected);
  });
  test('may differ only where the kit says so', () => {
    expect(lotsMatch({ ...kit, conjugateLotMustMatch: false }, 'A1', 'B7')).toEqual({ ok: true, value: 'A1' });
  });
});

describe('the clock (Verifies: TEST-R3)', () => {
  const window = windowOf(kit, start);
  test.each([
    [0, 0, 0, 'running', 600],
    [9, 59, 999, 'running', 1],
    [10, 0, 0, 'open', 300],
    [15, 0, 0, 'open', 0],
    [15, 0, 999, 'open', 0],
  ])('%i:%i.%i is %s', (minutes, seconds, ms, phase, remaining_s) => {
    expect(phaseAt(window, later(minutes, seconds, ms))).toMatchObject({ phase, remaining_s });
  });
  test('is closed from the next second on', () => {
    expect(phaseAt(window, later(15, 1))).toMatchObject({ phase: 'closed', over_s: 1 });
    expect(phaseAt(window, later(20))).toMatchObject({ phase: 'closed', over_s: 300 });
  });
  test('opens and closes when the kit says so (Verifies: TEST-R11)', () => {
    const quick = windowOf({ readOpens_s: 300, readCloses_s: 420 }, start);
    expect(phaseAt(quick, later(4, 59)).phase).toBe('running');
    expect(phaseAt(quick, later(7)).phase).toBe('open');
    expect(phaseAt(quick, later(7, 1)).phase).toBe('closed');
  });
});

describe('what a reading means', () => {
  const seen = (control: Seen[string], antigen: Seen[string], invalid: Seen[string] = 'not-seen'): Seen => ({
    control,
    antigen,
    invalid,
  });
  const at = (minutes: number, seconds: number, what: Seen = seen('seen', 'not-seen')) =>
    resultOf(kit, start, later(minutes, seconds), what).result;

  test('outside the window it means nothing, whatever was seen (Verifies: TEST-R4)', () => {
    expect(at(9, 50)).toBe('not-valid');
    expect(at(10, 0)).toBe('negative');
    expect(at(15, 0)).toBe('negative');
    expect(at(15, 10)).toBe('not-valid');
    expect(at(15, 10, seen('seen', 'seen'))).toBe('not-valid');
    expect(at(9, 50, seen('not-seen', 'not-seen'))).toBe('not-valid');
  });

  test.each<[Seen, string, string]>([
    [seen('seen', 'not-seen'), 'negative', 'test.result-negative'],
    [seen('faint', 'not-seen'), 'negative', 'test.result-negative'],
    [seen('seen', 'seen'), 'reactive', 'test.result-reactive'],
    [seen('seen', 'faint'), 'reactive', 'test.result-reactive-faint'],
    [seen('not-seen', 'not-seen'), 'invalid', 'test.result-invalid'],
    [seen('not-seen', 'seen'), 'invalid', 'test.result-invalid'],
    [seen('seen', 'not-seen', 'seen'), 'invalid', 'test.result-invalid'],
    [seen('seen', 'seen', 'faint'), 'invalid', 'test.result-invalid'],
    [{ control: 'seen', antigen: 'not-seen' }, 'invalid', 'test.zone-not-looked-at'],
    [{ ...seen('seen', 'not-seen'), foo: 'not-seen' }, 'invalid', 'test.pattern-unknown'],
    [{ ...seen('seen', 'not-seen'), Antigen: 'seen' }, 'invalid', 'test.pattern-unknown'],
  ])('%j is %s (Verifies: TEST-R5)', (what, result, why) => {
    const reading = resultOf(kit, start, later(12), what);
    expect([reading.result, reading.why.say]).toEqual([result, why]);
  });

  test('a pattern without a rule is invalid, and a faint mark is told', () => {
    const bare: KitType = { ...kit, readings: kit.readings.slice(2, 3) };
    expect(resultOf(bare, start, later(12), seen('seen', 'not-seen')).result).toBe('invalid');
    expect(resultOf(kit, start, later(12), seen('seen', 'faint'))).toMatchObject({ faint: true, after_s: 720 });
  });
});

describe('blood drawn (Verifies: TEST-R10)', () => {
  test('the ledger counts failed draws and forgets after its days', () => {
    const draws = [
      { at: '2026-03-01T10:00:00Z', volume_ul: 1000 },
      { at: '2026-03-07T10:00:00Z', volume_ul: 300 },
    ];
    const allowance = bloodAllowance(500, draws, start, blood);
    expect(allowance.limits.map((limit) => [limit.days, limit.drawn_ul, limit.left_ul])).toEqual([
      [7, 300, 1800],
      [14, 1300, 1500],
      [28, 1300, 2900],
    ]);
    expect(allowance.left_ul).toBe(1500);
    expect(tooMuchBlood(1500, allowance)).toBeNull();
    expect(tooMuchBlood(1501, allowance)?.say).toBe('test.blood-too-much');
  });
});
