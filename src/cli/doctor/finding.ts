import type { Said } from '../../core/said.js';

/**
 * One thing that was looked at. `well`: nothing to do. `attention`: it works, and somebody should see to it. `wrong`: it
 * does not work, or what is kept is in danger. Each says what there is, and where something is to be done, what.
 */
export interface Finding {
  readonly is: 'well' | 'attention' | 'wrong';
  readonly what: Said;
}

export const well = (what: Said): Finding => ({ is: 'well', what });
export const attention = (what: Said): Finding => ({ is: 'attention', what });
export const wrong = (what: Said): Finding => ({ is: 'wrong', what });
