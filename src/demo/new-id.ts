import type { Chance } from './chance.js';
import type { Ms } from './instant.js';

/**
 * Identifiers with the shape of UUID version 7 (RFC 9562): 48 bits of time, a count that keeps ids of one moment in
 * order, the rest from the seeded source.
 */
export function idMaker(chance: Chance): (at: Ms) => string {
  let count = 0;
  return (at) => {
    const time = Math.trunc(at).toString(16).padStart(12, '0');
    const place = (count % 4096).toString(16).padStart(3, '0');
    count += 1;
    const variant = chance.pick(['8', '9', 'a', 'b']);
    return `${time.slice(0, 8)}-${time.slice(8)}-7${place}-${variant}${chance.hex(3)}-${chance.hex(12)}`;
  };
}
