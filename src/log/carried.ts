import { type Said, said } from '../core/said.js';
import { isWholeText } from './canonical.js';

/** Levels of lists and objects inside each other. The documents have about twenty; the limit is our choice, no source. */
const levels = 100;

/**
 * Why a value that came from outside cannot be carried by every store, file and wire: nested too deep, half characters,
 * zero characters, numbers without an end, a field
 * that would stand for what every object is made from. Null when nothing stands in the way. Never runs out of room itself, however
 * deep the value: nothing that calls itself may see a record before this has.
 */
export function uncarriable(value: unknown): Said | null {
  const open: { readonly value: unknown; readonly level: number }[] = [{ value, level: 0 }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value: at, level } = next;
    if (typeof at === 'string' && !isWhole(at)) return said('log.text-broken');
    if (typeof at === 'number' && !Number.isFinite(at)) return said('log.number-endless');
    if (typeof at !== 'object' || at === null) continue;
    if (level === levels) return said('log.too-deep', { most: levels });
    for (const [name, field] of Object.entries(at)) {
      if (!isWhole(name)) return said('log.text-broken');
      if (name === '__proto__') return said('log.odd-field', { name });
      open.push({ value: field, level: level + 1 });
    }
  }
  return null;
}

const isWhole = (text: string): boolean => isWholeText(text) && !text.includes('\u0000');
