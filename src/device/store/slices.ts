import type { InParts } from '../../core/in-parts.js';

/** How long work that could wait keeps a page from answering a hand, and how it lets it. */
export interface Rest {
  /** Whether the work at hand has gone on long enough. */
  readonly isDue: () => boolean;
  /** Let everything else have its turn first. */
  readonly take: () => Promise<void>;
}

/** Where nobody waits: work runs to its end. */
export const noRest: Rest = { isDue: () => false, take: () => Promise.resolve() };

/** Work run in slices, with a rest between them. */
export async function inSlices<R>(work: InParts<R>, rest: Rest): Promise<R> {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    if (rest.isDue()) await rest.take();
  }
}
