import fc from 'fast-check';
import { seed } from './chance.js';

/** For every project: a random check that names no seed of its own takes this one. */
fc.configureGlobal({ seed });
