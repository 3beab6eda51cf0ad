import type { RoundLine } from '../round.js';

/** Something has still to be done by hand: not done, drawn but not started, or chip in and not read. */
export const isLeft = (line: RoundLine): boolean =>
  line.state === 'open' || line.state === 'part' || (line.state === 'running' && line.run?.startedAt == null);
