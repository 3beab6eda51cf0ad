import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { consecutiveBox } from './box.js';
import { ChipInput, calculateChip } from './calculate.js';
import { countries } from './countries.js';
import { controlDigits, controlFits, fromCode64, largestNational } from './iso-code.js';
import { readChip, sameChip } from './read-chip.js';
import { decodeTelegram, kermit } from './telegram.js';

const read = (raw: string): string => {
  const answer = readChip(raw);
  return answer.ok ? answer.value.code : answer.why.say;
};
const warnings = (raw: string): string[] => {
  const answer = readChip(raw);
  return answer.ok ? answer.value.warnings.map((one) => one.say) : [answer.why.say];
};

describe('a chip number as it comes in (Verifies: CHIP-R1, CHIP-R2)', () => {
  test.each([
    ['985112006831826', '985112006831826'],
    ['*985112006831826', '985112006831826'],
    ['*985112006831826*', '985112006831826'],
    [']C1985112006831826', '985112006831826'],
    [']Q3985112006831826\r\n', '985112006831826'],
    ['FDXB982000411576091', '982000411576091'],
    ['FDX-B: 982 000411576091', '982000411576091'],
    ['HDX 982000411576091', '982000411576091'],
    ['ID: 985 112 006 831 826', '985112006831826'],
    ['985 112 006 831 826', '985112006831826'],
    ['985-112-006831826', '985112006831826'],
    ['985.112006831826', '985112006831826'],
    ['\u0002985112006831826\u0003', '985112006831826'],
    ['0985-112006831826', '985112006831826'],
    ['985112006831826985112006831826', '985112006831826'],
    ['985112006831826\r\n985112006831826\r\n', '985112006831826'],
    ['LA 982 000001088420\r\n', '982000001088420'],
    ['LA 00000 0 982 000001088420\r\n', '982000001088420'],
    ['A00999000000112233', '999000000112233'],
    ['AD0999000000112233', '999000000112233'],
    ['000999000000112233', '999000000112233'],
    ['036098100123456', '036098100123456'],
    ['031820285', '031820285'],
    ['220*609*321', '220609321'],
    ['4520382E12', '4520382E12'],
    ['492E153288', '492E153288'],
    ['0a11ab34cd', '0A11AB34CD'],
    ['0A11AB34CD0A11AB34CD', '0A11AB34CD'],
  ])('%j', (raw, code) => {
    expect(read(raw)).toBe(code);
    const answer = readChip(raw);
    expect(answer.ok && answer.value.raw).toBe(raw);
  });

  test('keeps the kind', () => {
    const kind = (raw: string) => {
      const answer = readChip(raw);
      return answer.ok ? answer.value.class : null;
    };
    expect([kind('985112006831826'), kind('031820285'), kind('4520382E12')]).toEqual([
      'iso',
      '9-digit',
      '10-character',
    ]);
  });
});

describe('what is refused, and why (Verifies: CHIP-R3, CHIP-R4, CHIP-R13)', () => {
  test.each([
    ['', 'chip.empty'],
    ['  \r\n', 'chip.empty'],
    ['36098100123456', 'chip.zero-missing'],
    ['8098100123456', 'chip.zero-missing'],
    ['9851120068318261', 'chip.length'],
    ['0700', 'chip.length'],
    ['9851210O4515220', 'chip.letter-inside'],
    ['OA11AB34CD', 'chip.letter-inside'],
    ['9.85112E+14', 'chip.power-of-ten'],
    ['9,85112E+14', 'chip.power-of-ten'],
    ['9.85E+14', 'chip.power-of-ten'],
    ['985112E+9', 'chip.power-of-ten'],
    ['985112000000000', 'chip.rounded'],
    ['985300000000001', 'chip.national-too-big'],
    ['000112006831826', 'chip.prefix-zero'],
    ['985112006831826985112006831827', 'chip.glued-different'],
    ['985112006831826\n985112006831827', 'chip.two-different'],
    ['LR 0006 0000000018514348\r\n', 'chip.industrial'],
    ['ç_(&&éàà-_"&_é-', 'chip.keyboard-layout'],
    ['(*%!!@))^*#!*@^', 'chip.keyboard-layout'],
    ['ç_(', 'chip.keyboard-layout'],
    ['Pip', 'chip.unreadable'],
    ['3FF.1CBE991A14', 'chip.prefix-too-big'],
    ['FFFFFFFFFFFFFFFF', 'chip.hex-order'],
  ])('%j: %s', (raw, why) => {
    expect(read(raw)).toBe(why);
  });

  test('no 15 digits other than the right ones come out of one wrong key', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 14 }), fc.string({ minLength: 1, maxLength: 1 }), (at, letter) => {
        const wrong = `985112006831826`.slice(0, at) + letter + `985112006831826`.slice(at + 1);
        const answer = readChip(wrong);
        if (answer.ok && answer.value.class === 'iso') expect(answer.value.code).toBe(wrong);
      }),
    );
  });
});

describe('what is pointed out (Verifies: CHIP-R5, CHIP-R7, CHIP-R8)', () => {
  test.each([
    ['985112006831826', []],
    ['999000000112233', ['chip.test-number']],
    ['613262971260928', ['chip.prefix-not-assigned']],
    ['895112006831826', ['chip.prefix-not-assigned']],
    ['900155000101234', ['chip.known-misuse']],
    ['981804006831826', ['chip.national-too-big']],
    ['000999000000112233', ['chip.test-number', 'chip.animal-bit']],
    ['031820285', ['chip.nine-digits']],
    ['0000013531', ['chip.ten-digits']],
    ['0F0368568B', ['chip.not-pet-chip']],
    ['0A11AB34CD', ['chip.not-pet-chip']],
  ])('%s: %j', (raw, expected) => {
    expect(warnings(raw)).toEqual(expected);
  });

  test('the list of countries is the official one', () => {
    const codes = Object.keys(countries).sort();
    expect([codes.length, codes[0], codes.at(-1)]).toEqual([249, '004', '894']);
  });
});

describe('the same chip (Verifies: CHIP-R7)', () => {
  test.each([
    ['985112006831826', '985 112 006 831 826\r', true],
    ['0a11ab34cd', '0A11AB34CD', true],
    ['A00999000000112233', '0D0999000000112233', true],
    ['982000001088420', '985000001088420', false],
    ['', '', false],
    ['x-7', 'X-7', true],
    ['985112006831826', 'x', false],
  ])('%j and %j: %s', (a, b, same) => {
    expect(sameChip(a, b)).toBe(same);
  });
});

describe('64 bits and telegrams (Verifies: CHIP-R4, CHIP-R6)', () => {
  test('every number comes out of its 64-bit code', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 999 }),
        fc.bigInt({ min: 0n, max: largestNational }),
        fc.boolean(),
        fc.boolean(),
        (prefix, national, animal, dataBlock) => {
          const code = `${String(prefix).padStart(3, '0')}${String(national).padStart(12, '0')}`;
          const flags = (animal ? 1n << 63n : 0n) | (dataBlock ? 1n << 48n : 0n);
          const back = fromCode64(flags | (BigInt(prefix) << 38n) | national);
          expect(back).toMatchObject({ code, animalBit: animal, dataBlock, reserved: 0 });
        },
      ),
    );
  });

  test('one flipped bit anywhere but in the trailer is refused or changes nothing of the number', () => {
    const good = BigInt('0x00253FABB4D2756F80406A11B8040201');
    for (let bit = 0; bit < 128; bit += 1) {
      const answer = decodeTelegram((good ^ (1n << BigInt(bit))).toString(16).padStart(32, '0'));
      if (answer.ok) {
        expect(answer.value.code).toBe('985121004515220');
        expect(bit).toBeLessThan(27);
      }
    }
    expect(decodeTelegram('00').ok).toBe(false);
    expect(kermit([...'123456789'].map((letter) => letter.charCodeAt(0)))).toBe(0x2189);
  });
});

describe('control digits (Verifies: CHIP-R9)', () => {
  test('catch every single slip and every swap of neighbours', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[1-9]\d{14}$/), (code) => {
        const control = controlDigits(code);
        expect(controlFits(code, control)).toBe(true);
        for (let at = 0; at < 15; at += 1) {
          for (let digit = 0; digit < 10; digit += 1) {
            const slip = code.slice(0, at) + digit + code.slice(at + 1);
            if (slip !== code) expect(controlFits(slip, control)).toBe(false);
          }
          const swap = code.slice(0, at) + code.slice(at + 1, at + 2) + (code[at] ?? '') + code.slice(at + 2);
          if (swap !== code) expect(controlFits(swap, control)).toBe(false);
        }
      }),
      { numRuns: 50 },
    );
  });
});

describe('the box', () => {
  const list = consecutiveBox('981098104567801', 25);
  test('knows its numbers', () => {
    const codes = list.ok ? list.value : [];
    expect(codes).toHaveLength(25);
    expect(codes.at(-1)).toBe('981098104567825');
    expect(consecutiveBox('031820285', 5).ok).toBe(false);
  });
});

test('the calculator answers for numbers and telegrams', () => {
  const run = (input: unknown) => calculateChip(ChipInput.parse(input));
  expect(run({ chip: '*985112006831826', same_as: '985112006831826' })).toMatchObject({
    ok: true,
    value: { code: '985112006831826', same: true, prefix: { category: 'manufacturer' } },
  });
  expect(run({ chip: '985121004515220', control: '58' }).ok).toBe(true);
  expect(run({ chip: '985121004515220', control: '57' })).toMatchObject({ why: { say: 'chip.control-wrong' } });
  expect(run({ telegram: '00253FABB4D2756F80406A11B8040201' })).toMatchObject({
    value: { code: '985121004515220', crc: 'D80A', code64: '8000F65C2C6E5F94', trailer: '000000' },
  });
  expect(run({ telegram: '00253FABB4D2756F80406A11B8040202' }).ok).toBe(false);
});
