import { writeVolume } from '../../../core/quantity/write.js';
import type { DrawUp } from '../../../log/views/draw-ups.js';
import { say } from '../../../words/say.js';

/** What is to be drawn or given, as on the label; a dose that a gate stops shows no figure. */
export function amountText({ dose }: Pick<DrawUp, 'dose'>): string {
  if (dose.stopped) return say('ribbon.sheet.stopped');
  if (dose.inWords !== null) return say('ribbon.sheet.in-words', { words: dose.inWords });
  if (dose.drawn !== null) {
    const { drawn } = dose;
    const volume = writeVolume(drawn.volume_ul);
    return drawn.scale === 'mL' ? volume : `${volume} (${drawn.mark})`;
  }
  if (dose.pieces !== null) return say(dose.pieces);
  return dose.exact_ul === null ? '' : writeVolume(dose.exact_ul);
}
