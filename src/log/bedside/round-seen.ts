import type { CalendarDate } from '../../core/calendar.js';
import type { RoundId } from '../../core/ids.js';
import { flagsAbout } from '../flags/flags.js';
import { type AnimalStop, countsOf, type RoundLine, type RoundView, roundView } from '../views/round/round.js';
import type { World } from '../views/world.js';

const isGiven = (line: RoundLine): boolean => line.action === 'give' && line.state === 'done' && line.record !== null;

/**
 * The round with what its flags say of it: a dose on which a stop stands that nobody has answered is to be looked at, however
 * harmless the record looks by now. Null when there is no such round. `today` is the day the flags are asked for.
 */
export function roundSeen(world: World, id: RoundId, today: CalendarDate): RoundView | null {
  const view = roundView(world, id);
  if (view === null) return null;
  const stops = view.stops.map((at) => ({ ...at, animals: at.animals.map((stop) => withStops(world, stop, today)) }));
  return { ...view, stops, counts: countsOf(stops.flatMap(({ animals }) => animals)) };
}

function withStops(world: World, stop: AnimalStop, today: CalendarDate): AnimalStop {
  if (!stop.lines.some((line) => isGiven(line) && !line.abnormal)) return stop;
  const stopped = new Set(
    flagsAbout(world, stop.animal.id, today).flatMap(({ severity, state, about }) =>
      severity === 'stop' && state !== 'answered' && about !== null ? [about] : [],
    ),
  );
  const lines = stop.lines.map((line) =>
    isGiven(line) && line.record !== null && stopped.has(line.record) ? { ...line, abnormal: true } : line,
  );
  return { ...stop, lines };
}
