import { type Stand, standCounts, stands } from '../log/bedside/stand.js';
import type { AnimalStop } from '../log/views/round/round.js';
import { say } from '../words/say.js';
import type { Tone } from './tone.js';

/** How an animal of a round stands, in a word; the same on phone, strip of time and desk. */
export const standWords = (stand: Stand): string => say(`round.stand.${stand}`);

export const toneOfStand: Readonly<Record<Stand, Tone>> = {
  stopped: 'stop',
  'two-numbers': 'stop',
  'chip-unread': 'attention',
  reactive: 'stop',
  glow: 'attention',
  unsure: 'attention',
  drawn: 'attention',
  'chip-in': 'attention',
  repeat: 'attention',
  running: 'running',
  open: 'plain',
  look: 'attention',
  'not-done': 'attention',
  done: 'done',
};

/** How many animals are done, and how the others stand; every animal is in it once. */
export function standsInWords(stops: readonly AnimalStop[]): string {
  const counts = standCounts(stops);
  const others = stands.flatMap((stand) =>
    stand === 'done' || counts[stand] === 0 ? [] : say(`round.stands.${stand}`, { count: counts[stand] }),
  );
  return [say('round.animals-done', { done: counts.done, all: stops.length }), ...others].join(' · ');
}
