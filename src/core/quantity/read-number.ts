import type { Decimal } from 'decimal.js';
import { type After, type Said, said } from '../said.js';
import { exactly } from './exact.js';

/** What a person may have meant by a number: one thing, several (to be asked about), or nothing readable. */
export type NumberReading =
  | { readonly is: 'number'; readonly value: Decimal; readonly decimals: number }
  | { readonly is: 'ask'; readonly values: readonly Decimal[]; readonly why: Said }
  | { readonly is: 'no'; readonly why: Said };

const no = (say: `dose.number-${After<'dose.number-'>}`, entered: string): NumberReading => ({
  is: 'no',
  why: said(say, { entered }),
});

/**
 * Reads a number as people type it. Point and comma are both the decimal sign. Three digits after a single one of them
 * ("1,234") have two readings and are asked about, except behind a zero ("0,650"), and except behind a point when
 * `pointIsDecimal` (a scale that shows kilograms to the gram). A number is never shortened or repaired silently.
 */
export function readNumber(entered: string, pointIsDecimal = false): NumberReading {
  const text = entered.replace(/[\u00a0\u2009\u202f]/g, ' ').trim();
  if (/^[1-9]\d*$/.test(text)) return one(text);
  if (text === '') return no('dose.number-empty', entered);
  if (/^[-\u2212]/.test(text)) return no('dose.number-negative', entered);
  if (/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⁄]|\d\s*\/\s*\d/.test(text)) return no('dose.number-fraction', entered);
  if (/^\d+([.,]\d+)?e[+-]?\d+$/i.test(text)) return no('dose.number-power', entered);
  if (!/^[\d., '’]+$/.test(text)) return no('dose.number-unreadable', entered);
  if (/^\d+$/.test(text)) return wholeNumber(text, entered);
  if (/^\d+[.,]$/.test(text)) return no('dose.number-unfinished', entered);
  if (/^\d{1,3}(['’]\d{3})+$/.test(text)) return one(text.replace(/['’]/g, ''));
  const single = /^(\d*)([., ])(\d+)$/.exec(text);
  if (single) return oneSign(single[1] ?? '', single[2] ?? '', single[3] ?? '', pointIsDecimal, entered);
  if (/^[1-9]\d{0,2}([., ])\d{3}(\1\d{3})+$/.test(text)) return one(text.replace(/\D/g, ''));
  const mixed = /^([1-9]\d{0,2}(?:([., '’])\d{3})(?:\2\d{3})*)([.,])(\d+)$/.exec(text);
  if (mixed && mixed[2] !== mixed[3]) return one(`${(mixed[1] ?? '').replace(/\D/g, '')}.${mixed[4]}`);
  return no('dose.number-unreadable', entered);
}

function oneSign(before: string, sign: string, after: string, pointIsDecimal: boolean, entered: string): NumberReading {
  if (/^0\d/.test(before)) return no('dose.number-unreadable', entered);
  const grouped = /^[1-9]\d{0,2}$/.test(before) && after.length === 3;
  if (sign === ' ') {
    return grouped ? ask([`${before}${after}`, `${before}.${after}`], entered) : no('dose.number-unreadable', entered);
  }
  if (grouped && !(sign === '.' && pointIsDecimal)) return ask([`${before}.${after}`, `${before}${after}`], entered);
  return one(`${before === '' ? '0' : before}.${after}`);
}

/** A whole number that starts with a zero has probably lost its decimal sign: "065" may be 65 or 0.65. */
function wholeNumber(text: string, entered: string): NumberReading {
  if (!/^0\d/.test(text)) return one(text);
  const meant = text.replace(/^0+/, '');
  return meant === '' ? one('0') : ask([meant, `0.${text.slice(1)}`], entered);
}

function one(text: string): NumberReading {
  return { is: 'number', value: exactly(text), decimals: text.split('.')[1]?.length ?? 0 };
}

function ask(values: readonly string[], entered: string): NumberReading {
  return { is: 'ask', values: values.map(exactly), why: said('dose.number-two-readings', { entered }) };
}
