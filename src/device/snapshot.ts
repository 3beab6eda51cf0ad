/** A value that React can watch: read it, be told when it changes. */
export interface Watched<T> {
  readonly get: () => T;
  readonly set: (next: T) => void;
  readonly subscribe: (tell: () => void) => () => void;
}

export function watched<T>(first: T): Watched<T> {
  let value = first;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      for (const tell of listeners) tell();
    },
    subscribe: (tell) => {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
  };
}
