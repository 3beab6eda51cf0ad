/**
 * Work that can be laid aside between its parts: each step does a little, the last one gives the answer. A page does it
 * in slices and answers a hand in between; everybody else runs it to its end. Parts of a fold, of at most a few
 * milliseconds each.
 */
export type InParts<R> = Generator<undefined, R, undefined>;

/** Such work run to its end. */
export function atOnce<R>(work: InParts<R>): R {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}
