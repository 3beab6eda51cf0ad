import { decodeTelegram, hexOf, kermit } from '../../../src/core/chip/telegram.js';
import type { Ask, Asks } from './ask.js';
import { chip, chipOf, found } from './product.js';
import { between, onlyFor, starter } from './treatments.js';
import { publishedOf } from './value.js';

/** What a reader really sends, out of how a page prints it. */
const asSent = (text: string): string =>
  text.replaceAll('<CR>', '\r').replaceAll('<LF>', '\n').replaceAll('\\r', '\r').replace(/ \| /g, ' ');
const first = (pattern: RegExp, text: string): string => found(pattern.exec(text)?.[1], String(pattern));
const codeIn = (text: string): string => first(/(?<!\d)(\d{15})(?!\d)/, text);

/** The code that a reading gives. */
const reads: Ask = { ask: (given) => chipOf({ chip: asSent(given()) }).code, wants: codeIn };
const bit = { animal: /animal (?:bit|flag) ([01])/, data: /data(?:-block)? flag ([01])/ };
/** The code and the flags that a reading carries. */
const readsWith = (...flags: readonly (keyof typeof bit)[]): Ask => ({
  ask: (given) => {
    const { code, animal_bit, data_block } = chipOf({ chip: asSent(given()).replace(/ read as .*$/, '') });
    const all = { animal: animal_bit, data: data_block };
    return [code, ...flags.map((flag) => all[flag])];
  },
  wants: (expect) => [codeIn(expect), ...flags.map((flag) => first(bit[flag], expect) === '1')],
});
/** Whether a reading is refused; the product says why, in a sentence. */
const refuses: Ask = {
  ask: (given) => typeof chip({ chip: asSent(given()) }) === 'string',
  wants: (expect) => /^(refuse|invalid)/.test(expect),
};

const hexIn = (given: string): string => first(/([0-9A-F]{32})/, given);
const telegram: Ask = {
  ask: (given) => {
    const { code, animal_bit, data_block, crc, trailer, code64 } = chipOf({ telegram: hexIn(given()) });
    return { code, animal: animal_bit, data: data_block, crc, trailer, code64 };
  },
  wants: (expect) => ({
    code: first(/^id (\d{15})/, expect),
    animal: first(/animal bit ([01])/, expect) === '1',
    data: first(/data-block bit ([01])/, expect) === '1',
    crc: first(/CRC ([0-9A-F]{4})/, expect),
    trailer: first(/trailer ([0-9A-F]{6})/, expect),
    code64: first(/64-bit code ([0-9A-F]{16})/, expect),
  }),
};
/** The telegrams of the published file that carry a check sum. */
const telegrams = (): string[] =>
  publishedOf('microchip').flatMap(({ id, given }) => (/^MC-T0[1-7]$/.test(id) ? [hexIn(String(given))] : []));

const prefixOf = (digits: string) => chip({ chip: `${digits.padEnd(3, '0')}${'112006831826'}` });
const categoryOf = (prefix: number): string => {
  const answer = prefixOf(String(prefix).padStart(3, '0'));
  return typeof answer === 'string' ? answer : (answer.prefix?.category ?? '');
};
const every = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, at) => from + at);

export const chips: Asks = {
  'MC-T01': telegram,
  'MC-T03': telegram,
  'MC-T04': telegram,
  'MC-T05': telegram,
  'MC-T07': telegram,
  'MC-T08': {
    ask: (given) => {
      const { code, animal_bit } = chipOf({ chip: given() });
      return { code, animal: animal_bit };
    },
    wants: (expect) => ({ code: codeIn(expect), animal: first(/animal ([01])/, expect) === '1' }),
  },
  'MC-T09': {
    ask: (given) => {
      const [, byte = '', times = ''] = /data (\w\w) x (\d+)/.exec(given()) ?? [];
      return hexOf(kermit(Array.from({ length: Number(times) }, () => Number.parseInt(byte, 16))), 4);
    },
    wants: (expect) => first(/= ([0-9A-F]{4})$/, expect),
  },
  'MC-T11': {
    ask: (given) => {
      if (!given().includes('MC-T01..T07')) throw new Error('other vectors');
      const sums = telegrams().map((hex) => {
        const read = decodeTelegram(hex);
        if (!read.ok) throw new Error(read.why.say);
        const code = BigInt(`0x${read.value.code64}`);
        const bytes = Array.from({ length: 8 }, (_, at) => Number((code >> BigInt(8 * at)) & 0xffn));
        return hexOf(kermit([...bytes, read.value.crc & 0xff, read.value.crc >> 8]), 4);
      });
      return [...new Set(sums)];
    },
    wants: (expect) => [first(/= ([0-9A-F]{4})$/, expect)],
  },
  'MC-T13': {
    ask: (given) => {
      const trailer = first(/trailer (\w{6})/, given());
      const all = telegrams().map((hex) => chipOf({ telegram: hex }));
      return [...new Set(all.filter((one) => one.trailer === trailer).map((one) => one.code))];
    },
    wants: (expect) => [codeIn(expect)],
  },
  'MC-F01': reads,
  'MC-F03': readsWith('animal'),
  'MC-F04': {
    ask: (given) => {
      const rows = given()
        .split(';')
        .map((row) => row.split('<->').map((form) => form.trim()));
      return rows.every(([code = '', ...forms]) =>
        forms.every((form) => chipOf({ chip: form }).code.endsWith(code.replace(/^\.+ /, ''))),
      );
    },
    wants: (expect) => /^all 10 rows decode to the stated 15 digits/.test(expect),
  },
  'MC-F05': readsWith('animal'),
  'MC-F06': readsWith('animal', 'data'),
  'MC-F07': { ask: (given) => chipOf({ chip: given() }).code, wants: (expect) => first(/id (\d{15})/, expect) },
  'MC-F08': {
    // Only the right check byte is let through; the answer is the one that is.
    ask: (given) =>
      every(0, 255)
        .map((byte) => hexOf(byte, 2))
        .filter((byte) => typeof chip({ chip: given().replace('[BCC]', byte) }) !== 'string'),
    wants: (expect) => [first(/= ([0-9A-F]{2}) /, expect)],
  },
  'MC-F09': reads,
  'MC-F10': reads,
  'MC-F11': readsWith('data'),
  'MC-F12': refuses,
  'MC-F13': {
    ask: (given) => {
      const [one = '', other = ''] = given().split(' and ');
      return chipOf({ chip: one, same_as: other }).same;
    },
    wants: (expect) => !expect.startsWith('two different animals'),
  },
  'MC-F14': reads,
  'MC-S06': {
    ask: (given) => {
      const largest = 2n ** BigInt(first(/^(\d+) bits/, given())) - 1n;
      const passes = (national: bigint): boolean => typeof chip({ chip: `985${national}` }) !== 'string';
      return passes(largest) && !passes(largest + 1n) ? String(largest) : 'another';
    },
    wants: (expect) => expect,
  },
  'MC-S07': refuses,
  'MC-S09': {
    ask: (given) => {
      const text = first(/'(\d{15})'/, given());
      const lost = String(Number(text));
      return {
        kept: chipOf({ chip: text }).code.length,
        lost: chip({ chip: lost }) === 'chip.zero-missing' ? lost : '',
      };
    },
    wants: (expect) => ({ kept: Number(first(/\((\d+) digits\)/, expect)) + 1, lost: first(/^(\d+) /, expect) }),
  },
  'MC-P01': {
    ask: (given) => categoryOf(Number.parseInt(given(), 10)),
    wants: (expect) => first(/^(test)/, expect),
  },
  'MC-P02': {
    ask: (given) => typeof prefixOf(first(/^(\d{3})/, given())) === 'string',
    wants: (expect) => expect.startsWith('invalid'),
  },
  'MC-P04': {
    ask: (given) =>
      typeof chip({
        chip: first(/^([\d ]+)/, given())
          .replaceAll(' ', '')
          .padEnd(15, '0'),
      }) === 'string',
    wants: (expect) => /misuse; flag/.test(expect),
  },
  'MC-P11': {
    ask: (given) => {
      if (given() !== 'all official entries') throw new Error('other entries');
      const all = every(0, 999).filter((prefix) => categoryOf(prefix) === 'country');
      return { count: all.length, first: all[0], last: all.at(-1) };
    },
    wants: (expect) => ({
      count: Number(first(/^(\d+) codes/, expect)),
      first: Number(first(/smallest (\d+)/, expect)),
      last: Number(first(/largest (\d+)/, expect)),
    }),
  },
  'MC-P12': {
    ask: (given) => categoryOf(Number(given())),
    wants: (expect) => first(/treated as (manufacturer) range/, expect),
  },
  'MC-P13': {
    ask: (given) => {
      const [from = 0, to = 0, shared = 0] = (given().match(/\d+/g) ?? []).map(Number);
      return {
        each: [...new Set(every(from, to).map(categoryOf))],
        shared: categoryOf(shared),
        test: categoryOf(to + 1),
      };
    },
    wants: (expect) => ({
      each: [first(/one (manufacturer) each/, expect)],
      shared: `manufacturer-${first(/900 (shared)/, expect)}`,
      test: first(/999 (test)/, expect),
    }),
  },
  'MC-N04': {
    ask: (given) => {
      const [good = '', bad = ''] = given().split(' / ');
      const warns = (text: string) => chipOf({ chip: text }).warnings.some((one) => one.say === 'chip.not-pet-chip');
      return { fails: [good, bad].filter(warns) };
    },
    wants: (expect) => ({ fails: [first(/; ([0-9A-F ]+) fails/, expect).replaceAll(' ', '')] }),
  },
  'MC-K02': {
    ask: (given) => {
      onlyFor(given(), 'shelter rule of thumb');
      const born = '2026-01-01';
      return between(born, starter('chip', { born }).on(born).earliest) / 7;
    },
    wants: (expect) => Number(first(/^(\d+) weeks or older/, expect)),
  },
  'MC-I02': reads,
  'MC-I03': reads,
  'MC-I05': refuses,
  'MC-I07': refuses,
};
