import { type Said, said } from '../core/said.js';
import type { StoreReport } from './verify.js';

/** What was found wrong with a store, one sentence each; none when it is whole. */
export function faultsInWords({ chain, unreadable, engine, tables }: Omit<StoreReport, 'whole'>): Said[] {
  const differing = tables.filter(({ missing, extra, different }) => missing + extra + different > 0);
  return [
    ...(chain.whole ? [] : [said('server.verify.chain-broken', { seq: chain.brokenAt })]),
    ...unreadable.map(({ seq, why }) => said('server.verify.unreadable', { seq, why })),
    ...engine.map((detail) => said('server.verify.engine', { detail })),
    ...differing.map(({ table, missing, extra, different }) =>
      said('server.verify.table', { table, missing, extra, different }),
    ),
  ];
}
