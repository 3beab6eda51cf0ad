import { said } from '../../core/said.js';
import type { Shelter } from '../views/shelter.js';
import type { Raised } from './flag.js';

/** Nothing drives a round any more although something did: the medical team is told, and the desk. */
export const noneInForceFlags = (shelter: Shelter): Raised[] =>
  shelter.noneInForce.map(
    ({ document, record, at, by }): Raised => ({
      key: `none-in-force:${record}`,
      code: 'none-in-force',
      severity: 'stop',
      animal: null,
      about: record,
      raisedAt: at,
      for: ['medical', 'supervisor'],
      why: said(`flag.none-in-force.${document}`, { person: { person: by }, at: { instant: at } }),
      by,
    }),
  );
