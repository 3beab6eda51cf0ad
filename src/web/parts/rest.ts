/**
 * After an act every button of the page rests for a moment. A gloved or impatient double tap lands on whatever stands
 * there by then: without the rest, the second tap of "given" gives the next dose as well.
 */
const rest_ms = 700;

/**
 * After a dose was recorded it is longer: the next one stands under the same finger, and a second tap after 1.3 seconds was
 * seen to record what nobody had given. Our choice, no source.
 */
export const afterDose_ms = 2_000;

let until = 0;
const listeners = new Set<() => void>();
const tell = (): void => {
  for (const listener of listeners) listener();
};

// Whoever has gone on to another place with the Tab key since has chosen anew; a finger that still taps has not.
if (typeof document !== 'undefined') {
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Tab' || !isResting()) return;
    until = 0;
    tell();
  });
}

/** Begins, or begins anew, when an act has been done; a longer one is not cut short. */
export function rest(ms: number = rest_ms): void {
  until = Math.max(until, performance.now() + ms);
  tell();
  // A little later than the end, so that whoever is told finds it over.
  setTimeout(tell, until - performance.now() + 5);
}

export const isResting = (): boolean => performance.now() < until;

export function onRest(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
