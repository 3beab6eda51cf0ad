import type { RoundLine } from './round.js';

/** Blood is drawn, and its test is not started: it keeps for minutes only. */
export const isDrawn = (line: RoundLine): boolean => line.state === 'running' && line.run?.startedAt == null;

/** A chip is in, and nothing was read in the animal since. */
export const isChipIn = (line: RoundLine): boolean => line.state === 'part' && line.chip === undefined;

/** Something has still to be done by hand: not done, drawn but not started, or chip in and not read. */
export const isLeft = (line: RoundLine): boolean => line.state === 'open' || line.state === 'part' || isDrawn(line);

/** A test that said nothing may be run again at once, with a new draw and a new kit. */
export const needsRepeat = (line: RoundLine): boolean =>
  line.action === 'test' &&
  line.state === 'done' &&
  ['invalid', 'not-valid', 'abandoned'].includes(line.run?.result ?? '');

/** Somebody has to come back for it: it was left, or its test said nothing. */
export const isStillOpen = (line: RoundLine): boolean => isLeft(line) || needsRepeat(line);
