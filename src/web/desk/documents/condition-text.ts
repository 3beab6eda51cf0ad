import type { ProductCondition } from '../../../core/dosing/product-condition.js';
import { say } from '../../../words/say.js';

/** A condition of a product as the page of the formulary says it: its words, and what it does. */
export const conditionText = (condition: ProductCondition): string =>
  say('desk.doc.condition', {
    words: condition.words,
    does: condition.does === 'ask-veterinarian' ? 'askveterinarian' : condition.does,
    unknown: condition.is === 'seen' ? condition.unknown : 'none',
  });
