import { createHash } from 'node:crypto';
import type { Sha256 } from '../log/hash.js';

/** The machine's own: several times as quick as ours, over the same bytes. */
export const sha256: Sha256 = (text) => createHash('sha256').update(text).digest('hex');
