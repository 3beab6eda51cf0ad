import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RoundFacts } from '../views/round-facts.js';
import { checkOf, codeOfLine, numberedLines, readLineCode } from './line-code.js';

const round = (id: string, animals: number): Pick<RoundFacts, 'id' | 'plan'> =>
  ({
    id,
    plan: { lines: Array.from({ length: animals }, (_, i) => ({ animal: `a${i}`, schedules: ['weighing', 'chip'] })) },
  }) as unknown as Pick<RoundFacts, 'id' | 'plan'>;

const alike: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1', Z: '2', S: '5', B: '8' };

describe('the code of a line on a treatment sheet (Verifies: RIBBON-R10)', () => {
  it('has the check sign of ISO/IEC 7064 MOD 37,36', () => {
    // The worked example of the identifier for sound recordings' releases, A1-2425G-ABC1234002-M; from memory.
    expect(checkOf('A12425GABC1234002', '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ')).toBe('M');
  });

  it('brings back the very line, however it is typed', () => {
    const rounds = [round('round-1', 40), round('round-2', 3)];
    for (const line of rounds.flatMap(numberedLines)) {
      const code = codeOfLine(line.round, line.number);
      expect(code).toMatch(/^L[0-9A-Z]{7}$/);
      expect(readLineCode(code, rounds)).toEqual({ ok: true, value: line });
      expect(readLineCode(` ${code.slice(0, 4)} ${code.slice(4).toLowerCase()}\n`, rounds)).toEqual({
        ok: true,
        value: line,
      });
    }
  });

  it('finds every single wrong sign', () => {
    const rounds = [round('round-1', 40)];
    const sign = fc.constantFrom(...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ');
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 80 }), fc.integer({ min: 1, max: 7 }), sign, (number, at, wrong) => {
        const code = codeOfLine('round-1' as never, number);
        fc.pre(code[at] !== wrong);
        const read = readLineCode(code.slice(0, at) + wrong + code.slice(at + 1), rounds);
        // A sign taken for its look-alike opens the line, and no other.
        if (read.ok) expect([alike[wrong], read.value.number]).toEqual([code[at], number]);
        else expect(read.why.say).toBe('ribbon.code.misread');
      }),
    );
  });

  it('takes a look-alike for the figure that is meant, and has only one of each pair (Verifies: SHEET-R1)', () => {
    const rounds = [round('round-1', 440)];
    for (const line of rounds.flatMap(numberedLines).filter(({ number }) => number % 29 === 1)) {
      const code = codeOfLine(line.round, line.number);
      expect(code.slice(1)).not.toMatch(/[OILZSB]/);
      const typed = Object.entries(alike).reduce((text, [letter, figure]) => text.replaceAll(figure, letter), code);
      expect(readLineCode(typed, rounds), typed).toEqual({ ok: true, value: line });
    }
  });

  it('says what is wrong with a code that opens nothing', () => {
    const why = (text: string, rounds = [round('round-1', 2)]) => {
      const read = readLineCode(text, rounds);
      return read.ok ? 'read' : read.why.say;
    };
    expect(why('900000000104107')).toBe('ribbon.code.other');
    expect(why(codeOfLine('round-1' as never, 5))).toBe('ribbon.code.unknown');
    expect(why(codeOfLine('round-9' as never, 1))).toBe('ribbon.code.unknown');
    expect(why(codeOfLine('round-1' as never, 1), [round('round-1', 2), round('round-1', 2)])).toBe('ribbon.code.two');
  });
});
