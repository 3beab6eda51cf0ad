import type { DoseRule } from '../core/dosing/formulary.js';
import { edgesOf } from '../core/dosing/label-weight.js';
import { say } from '../words/say.js';

/** A dose rule as one sentence. */
export function doseWords(rule: DoseRule): string {
  switch (rule.by) {
    case 'mg-per-kg':
      return say('desk.doc.dose.mg-per-kg', { low: rule.low, usual: rule.usual, high: rule.high });
    case 'mg-per-lb':
      return say('desk.doc.dose.mg-per-lb', { low: rule.low, usual: rule.usual, high: rule.high });
    case 'order':
      return say('desk.doc.dose.order');
    case 'ml-per-weight':
      return say('desk.doc.dose.ml-per-weight', { volume: rule.ml, per: rule.per });
    case 'fixed':
      if (rule.g !== undefined) return say('desk.doc.dose.grams', { grams: rule.g, pieces: rule.pieces ?? 'none' });
      return rule.ml === undefined
        ? say('desk.doc.dose.pieces', { pieces: rule.pieces ?? '' })
        : say('desk.doc.dose.ml', { volume: rule.ml });
    case 'bands':
      return rule.bands
        .map((band) => {
          const { from, to, over, through } = edgesOf(band);
          return say('desk.doc.dose.band', {
            from,
            to,
            over,
            through,
            amount:
              band.ml === undefined
                ? say('desk.doc.dose.pieces', { pieces: band.pieces ?? '' })
                : say('desk.doc.dose.ml', { volume: band.ml }),
          });
        })
        .join('; ');
  }
}
