import type { Asks } from './ask.js';
import { commonPractice } from './common-practice.js';
import { doses } from './dosing-doses.js';
import { marks } from './dosing-marks.js';
import { labelClaims } from './label-claims.js';
import { labelLimits } from './label-limits.js';
import { chips } from './microchip.js';
import { operations } from './operations.js';
import { orders } from './orders.js';
import { others } from './protocols-others.js';
import { vaccines } from './protocols-vaccines.js';
import { worths } from './protocols-worth.js';
import { returns } from './returns.js';
import { trust } from './trust.js';
import type { Part } from './value.js';

/** Who asks the values of a part. */
export const asksOf: Readonly<Record<Part, Asks>> = {
  dosing: { ...doses, ...marks },
  microchip: chips,
  operations,
  protocols: { ...vaccines, ...others, ...worths },
  'common-practice': commonPractice,
  clinical: { ...orders, ...labelClaims, ...labelLimits, ...returns },
  standards: trust,
  'week-plan': {},
};
