/**
 * After an act every button of the page rests for a moment. A gloved or impatient double tap lands on whatever stands
 * there by then: without the rest, the second tap of "given" gives the next dose as well.
 */
const rest_ms = 700;

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

/** Begins, or begins anew, when an act has been done. */
export function rest(): void {
  until = performance.now() + rest_ms;
  tell();
  // A little later than the end, so that whoever is told finds it over.
  setTimeout(tell, rest_ms + 5);
}

export const isResting = (): boolean => performance.now() < until;

export function onRest(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
