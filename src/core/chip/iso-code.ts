import { countries } from './countries.js';

/**
 * The 64-bit code of ISO 11784, bit 1 the most significant:
 *
 *   1 animal | 2-4 retagging | 5-9 user | 10-14 reserved | 15 advanced | 16 data block | 17-26 prefix | 27-64 national
 *
 * People see prefix (3 digits) and national number (12 digits): 15 digits of text without a check digit.
 */
export interface IsoCode {
  /** 15 digits, text. */
  readonly code: string;
  /** 1 = animal. Null when the reader did not say. */
  readonly animalBit: boolean | null;
  readonly dataBlock: boolean | null;
}

/** Largest number that fits the 38 bits of the national part. */
export const largestNational = 274_877_906_943n;

const bits = (value: bigint, from: number, count: number): number => {
  // `from` counts as the standard does: 1 is the most significant of 64.
  const shifted = value >> BigInt(64 - (from + count - 1));
  return Number(shifted & ((1n << BigInt(count)) - 1n));
};

/** Fields of a 64-bit code; null when its prefix has no three digits (1000 to 1023). */
export function fromCode64(value: bigint): (IsoCode & { readonly reserved: number; readonly prefix: number }) | null {
  const prefix = bits(value, 17, 10);
  if (prefix > 999) return null;
  const national = value & ((1n << 38n) - 1n);
  return {
    code: `${String(prefix).padStart(3, '0')}${String(national).padStart(12, '0')}`,
    animalBit: bits(value, 1, 1) === 1,
    dataBlock: bits(value, 16, 1) === 1,
    reserved: bits(value, 10, 5),
    prefix,
  };
}

export type PrefixCategory = 'country' | 'manufacturer-shared' | 'manufacturer' | 'test' | 'not-assigned';

export interface ChipPrefix {
  readonly digits: string;
  readonly category: PrefixCategory;
  /** English name of the country, else empty. */
  readonly country: string;
}

/**
 * What the first three digits are: a country of ISO 3166, the shared manufacturer code 900, a manufacturer's own code
 * 901 to 998, or the test code 999 (ranges from memory of ISO 24631-1; 999 confirmed by ICAR). A prefix never proves in
 * which register a chip is.
 */
export function prefixOf(code: string): ChipPrefix {
  const digits = code.slice(0, 3);
  const country = Object.hasOwn(countries, digits) ? (countries[digits] ?? '') : '';
  if (digits === '999') return { digits, category: 'test', country: '' };
  if (digits === '900') return { digits, category: 'manufacturer-shared', country: '' };
  if (digits > '900') return { digits, category: 'manufacturer', country: '' };
  return { digits, category: country === '' ? 'not-assigned' : 'country', country };
}

/** Two digits of ISO 7064 MOD 97-10 to print beside a number, so that a hand copy can be checked. */
export function controlDigits(code: string): string {
  return String(98n - ((BigInt(code) * 100n) % 97n)).padStart(2, '0');
}

/** Whether two control digits belong to a number. */
export const controlFits = (code: string, control: string): boolean =>
  /^\d+$/.test(code) && /^\d{2}$/.test(control) && (BigInt(code) * 100n + BigInt(control)) % 97n === 1n;
