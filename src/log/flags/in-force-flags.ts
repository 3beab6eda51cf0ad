import { said } from '../../core/said.js';
import type { Raised } from '../flag.js';
import { retiredFlagKey } from '../views/documents/retired.js';
import type { Shelter } from '../views/shelter.js';

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

/** What was signed and was retired without a licence: for another of the medical team, also when another is in force. */
export const retiredFlags = (shelter: Shelter): Raised[] =>
  shelter.retirements.map((one): Raised => {
    const { document, version, why, record, at, by, writtenBy } = one;
    return {
      key: retiredFlagKey(one),
      code: 'retired-unlicensed',
      severity: 'stop',
      animal: null,
      about: record,
      raisedAt: at,
      for: ['medical', 'supervisor'],
      why: said(`flag.retired-unlicensed.${document}`, {
        person: { person: by },
        at: { instant: at },
        version,
        reason: why,
      }),
      by,
      ...(writtenBy === undefined ? {} : { writtenBy }),
      closedBy: 'medical',
    };
  });
