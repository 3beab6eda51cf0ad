/**
 * What random checks draw from. `npm test` always draws the same, so that it is red or green by the code and not by luck;
 * `npm run test:long` draws anew and more, and prints its seed. ROUNDHAND_SEED=n draws again what a run has drawn.
 */
export const seed = Number(process.env.ROUNDHAND_SEED ?? '20261128');

/** How often a random check is made: as a rule, and in the long run. */
export const times = (usual: number, long: number): number => (process.env.ROUNDHAND_LONG === undefined ? usual : long);
