// What a phone that opens in a round fetches at once: one file, as each costs a way over the line (few-files.ts).
export { aheadOfRound } from '../../log/ahead-of-round.js';
export { RoundScreens } from './round-screens.js';
