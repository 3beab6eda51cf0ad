import { type Chance, chanceFrom } from '../../src/core/route-plan/model/chance.js';
import { type Luck, triangular } from './by-hand/simulate.js';

export interface Odds {
  /** Share of draws that give no blood. */
  readonly failedDraws: number;
  /** Interruptions in a minute of work, each of 2 to 3 minutes. */
  readonly interruptionsPerMinute: number;
}

/**
 * Failed draws: assumption, no source. Interruptions: about 2.5 minutes each (abstract of an observation of 56 medication
 * events, authors Johnson and others 2017 from memory) and 11.5 per cent of the time of a round (Thomson and others,
 * J Am Geriatr Soc 57:266, 2009, abstract), which makes one in 20 minutes of work.
 */
export const usualOdds: Odds = { failedDraws: 0.1, interruptionsPerMinute: 0.05 };

/** Luck by the name of the step: every way of working meets the same. */
export function luckFrom(seed: number, unitSeconds: number, odds: Odds = usualOdds): Luck {
  const chance = (name: string, what: string): Chance => chanceFrom(hash(`${name}|${what}|${seed}`));
  const minutes = (units: number): number => (units * unitSeconds) / 60;
  return {
    stretch: (name) => triangular(chance(name, 'stretch')),
    fails: (name) => chance(name, 'fails').next() < odds.failedDraws,
    interruption: (name, length) => {
      const own = chance(name, 'interruption');
      if (own.next() >= minutes(length) * odds.interruptionsPerMinute) return 0;
      return Math.round(((2 + own.next()) * 60) / unitSeconds);
    },
  };
}

/** FNV-1a, 32 bits. */
function hash(text: string): number {
  let value = 2_166_136_261;
  for (const letter of text) value = Math.imul(value ^ letter.charCodeAt(0), 16_777_619);
  return value | 0;
}
