import { describe, expect, test } from 'vitest';
import {
  type BurstKey,
  type BurstState,
  noBurst,
  numberBurst,
  scanBurst,
  scanPause,
  slowBurst,
  usualBurst,
} from './scan-burst.js';

interface Run {
  readonly scans: string[];
  readonly typed: number[];
  readonly swallowed: string[];
  readonly state: BurstState;
}

/** Feeds keys and notes what came out; `silence` is the time of the timer after the last key. */
function feed(keys: readonly BurstKey[], silence: number | null = null, rules = usualBurst): Run {
  let state = noBurst;
  const scans: string[] = [];
  const typed: number[] = [];
  const swallowed: string[] = [];
  const take = (step: ReturnType<typeof scanBurst>, key: string) => {
    state = step.state;
    if (step.scan !== null) {
      scans.push(step.scan.text);
      typed.push(step.scan.typed);
    }
    if (step.swallow) swallowed.push(key);
  };
  for (const key of keys) take(scanBurst(state, key, rules), key.key);
  if (silence !== null) take(scanPause(state, silence, rules), '');
  return { scans, typed, swallowed, state };
}

const keys = (text: string, gap: number, from = 0): BurstKey[] =>
  [...text].map((key, index) => ({ key, at_ms: from + index * gap }));
const chip = '985112006831826';

describe('a scan wherever the cursor is (Verifies: CHIP-R11)', () => {
  test.each([
    ['CR', ['\r']],
    ['LF', ['\n']],
    ['Enter', ['Enter']],
    ['Tab', ['Tab']],
    ['CR and LF', ['Enter', '\n']],
  ])('ended by %s, which does no work of its own', (_, ends) => {
    const run = feed([...keys(chip, 8), ...ends.map((key, index) => ({ key, at_ms: 120 + index * 5 }))]);
    expect(run.scans).toEqual([chip]);
    expect(run.typed).toEqual([15]);
    expect(run.swallowed).toEqual(ends);
  });

  test('ended by silence', () => {
    expect(feed(keys(chip, 8), 200).scans).toEqual([]);
    expect(feed(keys(chip, 8), 112 + 120).scans).toEqual([chip]);
  });

  test('ended by silence and the next key', () => {
    const run = feed([...keys(chip, 8), { key: 'x', at_ms: 900 }]);
    expect(run.scans).toEqual([chip]);
    expect(run.state.text).toBe('x');
  });

  test('after typed text in the same field', () => {
    const run = feed([...keys('seen by ', 140), ...keys(chip, 8, 3000), { key: 'Enter', at_ms: 3130 }]);
    expect(run.scans).toEqual([chip]);
    expect(run.typed).toEqual([15]);
  });

  test('with shift keys between the letters, and two in a row', () => {
    const shifted = keys('0A11AB34CD', 10).flatMap((key) => [{ key: 'Shift', at_ms: key.at_ms - 2 }, key]);
    const run = feed([...shifted, { key: 'Enter', at_ms: 105 }, ...keys(chip, 8, 130), { key: 'Enter', at_ms: 250 }]);
    expect(run.scans).toEqual(['0A11AB34CD', chip]);
  });
});

describe('typing stays typing (Verifies: CHIP-R11)', () => {
  test.each([
    ['a name with a star, quickly', [...keys('*Pip', 45), { key: 'Enter', at_ms: 200 }]],
    ['fifteen digits by hand', [...keys(chip, 110), { key: 'Enter', at_ms: 1700 }]],
    ['a fast typist', [...keys('isolation', 70), { key: 'Enter', at_ms: 640 }]],
    ['a key held down', keys('a'.repeat(20), 30).map((key, index) => ({ ...key, repeat: index > 0 }))],
    ['Enter alone', [{ key: 'Enter', at_ms: 10 }]],
    ['arrows between fast keys', [...keys('98511', 8), { key: 'ArrowLeft', at_ms: 45 }, ...keys('2006', 8, 50)]],
  ])('%s', (_, pressed) => {
    const run = feed(pressed, 10_000);
    expect(run.scans).toEqual([]);
    expect(run.swallowed).toEqual([]);
  });

  test('Enter long after a scan that ended by silence does its own work', () => {
    const run = feed([...keys(chip, 8), { key: 'Enter', at_ms: 2000 }]);
    expect(run.scans).toEqual([chip]);
    expect(run.swallowed).toEqual([]);
  });
});

describe('a scan that a busy page hears in two pieces (Verifies: CHIP-R17)', () => {
  test.each([4, 6, 9, 10, 14])('goes on as one after %s digits, whatever was told before', (cut) => {
    const struck = [...keys(chip, 12), { key: 'Enter', at_ms: 15 * 12 }];
    let state = noBurst;
    const scans: { text: string; typed: number }[] = [];
    for (const [at, key] of struck.entries()) {
      if (at === cut) {
        // The timer fires before the keys that are already on their way.
        const pause = scanPause(state, 400);
        state = pause.state;
        if (pause.scan !== null) scans.push(pause.scan);
      }
      const step = scanBurst(state, key);
      state = step.state;
      if (step.scan !== null) scans.push(step.scan);
    }
    // Under six keys nothing was told: they stand in the field still.
    expect(scans.at(-1)).toEqual({ text: chip, typed: cut >= 6 ? 15 - cut : 15 });
  });

  test('a key long after it begins anew', () => {
    const pause = scanPause(feed(keys('900000000', 12)).state, 400);
    expect(scanBurst(pause.state, { key: '7', at_ms: 900 }).state.text).toBe('7');
  });
});

describe('slow readers, while no field takes what is typed (Verifies: CHIP-R18)', () => {
  test.each([36, 53, 70, 110])('%s ms a key', (gap) => {
    const run = feed([...keys(chip, gap), { key: 'Enter', at_ms: 15 * gap }], null, slowBurst);
    expect(run.scans).toEqual([chip]);
    expect(run.swallowed).toEqual(['Enter']);
  });

  test('words typed at that speed are none', () => {
    expect(feed(keys('isolation', 90), 5_000, slowBurst).scans).toEqual([]);
  });
});

describe('in a field that takes numbers (Verifies: ROUND-R84)', () => {
  const gaps = [8, 33, 41, 60, 100, 110];

  test.each(gaps)('a chip at %s ms a key is a scan, and is taken out of the field', (gap) => {
    for (const [number, end] of [
      [chip, 'Enter'],
      [chip, 'Tab'],
      ['123456789', 'Enter'],
      ['0123456789', 'Enter'],
    ] as const) {
      const run = feed([...keys(number, gap), { key: end, at_ms: number.length * gap }], null, numberBurst);
      expect(run.scans).toEqual([number]);
      expect(run.typed).toEqual([number.length]);
      expect(run.swallowed).toEqual([end]);
    }
  });

  test.each(gaps)('and so it is at %s ms a key when silence ends it', (gap) => {
    expect(feed(keys(chip, gap), 14 * gap + numberBurst.pause_ms, numberBurst).scans).toEqual([chip]);
  });

  test('behind a weight that was typed, only the chip is taken out', () => {
    const run = feed([...keys('402', 150), ...keys(chip, 60, 900), { key: 'Enter', at_ms: 1800 }], null, numberBurst);
    expect(run.scans).toEqual([chip]);
    expect(run.typed).toEqual([15]);
  });

  test.each(gaps.filter((gap) => gap > 40))('a weight typed at %s ms a key never is', (gap) => {
    for (const weight of ['4', '402', '3.4', '12.5', '3400', '12500', '123456']) {
      const run = feed([...keys(weight, gap), { key: 'Enter', at_ms: weight.length * gap }], null, numberBurst);
      expect(run.scans).toEqual([]);
      expect(run.swallowed).toEqual([]);
    }
  });

  test.each([8, 33])('a weight of up to five digits never is, not even at %s ms a key', (gap) => {
    for (const weight of ['402', '3.4', '3400', '12500']) {
      expect(feed([...keys(weight, gap), { key: 'Enter', at_ms: 300 }], null, numberBurst).scans).toEqual([]);
    }
  });

  test('a number typed by hand, in groups, never is', () => {
    const typed = [...chip].map((key, index) => ({ key, at_ms: index * 90 + Math.floor(index / 3) * 60 }));
    expect(feed(typed, 5_000, numberBurst).scans).toEqual([]);
  });
});
