import { type KeyboardEvent, type RefObject, useState } from 'react';

export interface Place {
  readonly lane: number;
  readonly stop: number;
}

/**
 * Walking over the stops of all lanes with the arrow keys: left and right in time, up and down to the nearest stop of
 * the next lane. The whole picture is one stop of the tabulator, as in any toolbar (WAI-ARIA 1.2, toolbar).
 */
export function useWalk(lanes: readonly (readonly { readonly day: number }[])[], frame: RefObject<HTMLElement | null>) {
  const [at, setAt] = useState<Place | null>(null);
  const held = at !== null && lanes[at.lane]?.[at.stop] !== undefined ? at : null;
  const start = held ?? { lane: lanes.findIndex((stops) => stops.length > 0), stop: 0 };

  function go(place: Place | null): void {
    if (place === null) return;
    setAt(place);
    const strip = frame.current?.querySelectorAll('.tl-lane:not(.axis) .tl-strip')[place.lane];
    strip?.querySelectorAll<HTMLElement>('.tl-stop')[place.stop]?.focus();
  }

  function onKey(event: KeyboardEvent): void {
    const next = moveOf(event.key, start, lanes);
    if (next === undefined) return;
    event.preventDefault();
    go(next);
  }

  return {
    at: held,
    reach: setAt,
    onKey,
    isTabStop: (lane: number, stop: number): boolean => lane === start.lane && stop === start.stop,
  };
}

type Lanes = readonly (readonly { readonly day: number }[])[];

/** Where a key leads: undefined for a key that means nothing here, null where there is nothing further. */
export function moveOf(key: string, from: Place, lanes: Lanes): Place | null | undefined {
  const stops = lanes[from.lane] ?? [];
  switch (key) {
    case 'ArrowRight':
      return from.stop + 1 < stops.length ? { ...from, stop: from.stop + 1 } : null;
    case 'ArrowLeft':
      return from.stop > 0 ? { ...from, stop: from.stop - 1 } : null;
    case 'Home':
      return { ...from, stop: 0 };
    case 'End':
      return { ...from, stop: Math.max(0, stops.length - 1) };
    case 'ArrowDown':
      return nearest(from, lanes, 1);
    case 'ArrowUp':
      return nearest(from, lanes, -1);
    default:
      return undefined;
  }
}

function nearest(from: Place, lanes: Lanes, step: 1 | -1): Place | null {
  const day = lanes[from.lane]?.[from.stop]?.day ?? 0;
  for (let lane = from.lane + step; lane >= 0 && lane < lanes.length; lane += step) {
    const stops = lanes[lane] ?? [];
    if (stops.length === 0) continue;
    const away = stops.map((stop) => Math.abs(stop.day - day));
    return { lane, stop: away.indexOf(Math.min(...away)) };
  }
  return null;
}
