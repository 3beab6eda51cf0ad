import { type RefObject, useEffect, useRef, useSyncExternalStore } from 'react';

/** The stops on the screen now: while one stands, no dialog of the round lies over it. */
export class StopsShown {
  private shown = 0;
  private readonly told = new Set<() => void>();

  /** A stop is shown; gives back how it goes. */
  show(): () => void {
    this.change(1);
    let here = true;
    return () => {
      if (here) this.change(-1);
      here = false;
    };
  }

  readonly stands = (): boolean => this.shown > 0;

  readonly listen = (tell: () => void): (() => void) => {
    this.told.add(tell);
    return () => this.told.delete(tell);
  };

  private change(by: number): void {
    this.shown += by;
    for (const tell of this.told) tell();
  }
}

const stops = new StopsShown();

export const useStopShown = (): boolean => useSyncExternalStore(stops.listen, stops.stands);

/** For the heading of a stop: takes the focus, at the head of the page, once the dialogs over it have gone. */
export function useShowsStop(): RefObject<HTMLHeadingElement | null> {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    const gone = stops.show();
    // The stop must not stand below what was on the screen before.
    window.scrollTo(0, 0);
    // A dialog that closes gives the focus back in the next frame; the stop takes it after that.
    let frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(() => heading.current?.focus({ preventScroll: true }));
    });
    return () => {
      cancelAnimationFrame(frame);
      gone();
    };
  }, []);
  return heading;
}
