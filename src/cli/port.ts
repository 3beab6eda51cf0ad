import type { Given } from './command.js';

const usualPort = 8600;

/** The port that was given, the usual one when none was; null when what was given is none. */
export function portGiven(given: Given): number | null {
  const port = Number(given.text('port') ?? usualPort);
  return Number.isInteger(port) && port >= 0 && port <= 65_535 ? port : null;
}
