/** What a card showed to be drawn up, as it stood there; empty where it said nothing. */
export interface InTheSyringe {
  readonly product: string;
  /** Volume or pieces, in words. */
  readonly amount: string;
  readonly mark: string;
  readonly syringe: string;
  /** mg per mL; empty where the product has none. */
  readonly strength: string;
  readonly lot: string;
}

export interface ChangedOf {
  readonly what: keyof InTheSyringe;
  readonly before: string;
  readonly now: string;
}

const inOrder = ['product', 'amount', 'mark', 'syringe', 'strength', 'lot'] as const;

/**
 * What differs from what was shown before, the gravest first: a syringe drawn up by the earlier card does not hold what
 * this one says.
 */
export const changedSince = (before: InTheSyringe, now: InTheSyringe): ChangedOf[] =>
  inOrder.flatMap((what) => (before[what] === now[what] ? [] : { what, before: before[what], now: now[what] }));
