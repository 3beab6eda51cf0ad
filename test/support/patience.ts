/**
 * The longest that any check waits for a state: a page to say something, a plan to stand, a server to answer. A wait
 * ends with the state, so a quick machine never notices it; only a check that waits for what never comes is ended by
 * it. Generous because a machine may be slow, shared or busy: no test fails by time alone. Whoever looks for a fault may
 * set it shorter.
 */
export const patience_ms = Number(process.env.ROUNDHAND_PATIENCE_MS ?? '180000');

/** The longest that one test may take: many waits in a row, each of which ends by itself. */
export const longest_ms = 1_800_000;

/** How many times slower than this machine the journeys' browser is run; `ROUNDHAND_SLOW=4` is a phone of some years ago. */
export const slowedBy = Number(process.env.ROUNDHAND_SLOW ?? '1');
