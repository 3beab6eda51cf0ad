import { createContext, type ReactNode, useContext, useMemo } from 'react';
import { type CalendarDate, dayOfInstant } from '../../../core/calendar.js';
import type { OwnClock } from '../../../core/clocked.js';
import type { RoundId } from '../../../core/ids.js';
import { settledNow } from '../../../log/settled-time.js';
import { asNeededOf } from '../../../log/views/round/as-needed.js';
import type { Hands } from '../../../log/views/round/identity.js';
import { isLeft } from '../../../log/views/round/is-left.js';
import type { AnimalStop, RoundLine, RoundView, SectionStop } from '../../../log/views/round/round.js';
import { roundView } from '../../../log/views/round/round.js';
import type { Shelter } from '../../../log/views/shelter.js';
import type { World } from '../../../log/views/world.js';
import { now, useNow } from '../../clock.js';
import { store, useOwnClock, useStatusOf, useWho, useWorld } from '../../store/here.js';

/** What every screen of a round looks at. `now` is looked at again every second. */
export interface OnRound {
  readonly round: RoundId;
  readonly view: RoundView;
  readonly world: World;
  readonly shelter: Shelter;
  /** What is on record is held against this: by the right time where this device knows its clock to be fast. */
  readonly now: string;
  /** By this device's own clock, for what is shown running on it. */
  readonly here: string;
  readonly now_ms: number;
  readonly today: CalendarDate;
  readonly device: string;
  /** How far this device's clock can be relied on: what another device has timed is shown by it. */
  readonly clock: OwnClock;
  /** This device and since when the person who works on it has had it. */
  readonly hands: Hands;
}

const Around = createContext<OnRound | null>(null);

/** Null when this device knows no such round. */
export function useRoundOf(round: RoundId): OnRound | null {
  const world = useWorld();
  const device = useStatusOf('device');
  const clock = useOwnClock();
  const { since } = useWho();
  const now_ms = useNow(1_000);
  const view = useMemo(() => roundView(world, round), [world, round]);
  if (view === null) return null;
  const here = new Date(now_ms).toISOString();
  const now = settledNow(clock, here);
  const today = dayOfInstant(now, world.shelter.zone);
  return {
    round,
    view,
    world,
    shelter: world.shelter,
    now,
    here,
    now_ms,
    today,
    device: device ?? '',
    hands: { device: device ?? '', since },
    clock,
  };
}

export const RoundAround = ({ value, children }: { value: OnRound; children: ReactNode }) => (
  <Around.Provider value={value}>{children}</Around.Provider>
);

export function useRound(): OnRound {
  const around = useContext(Around);
  if (around === null) throw new Error('a round screen stands outside its round');
  return around;
}

export const stopOf = (view: RoundView, animal: string): { stop: AnimalStop; at: SectionStop } | null => {
  for (const at of view.stops) {
    const stop = [...at.animals, ...at.asNeeded].find((one) => one.animal.id === animal);
    if (stop !== undefined) return { stop, at };
  }
  return null;
};

/** The line as the store has it at this very moment, not as it was drawn. */
export function lineNow(round: RoundId, animal: string, schedule: string): RoundLine | null {
  const view = roundView(store.world.get(), round);
  const lines = view === null ? [] : (stopOf(view, animal)?.stop.lines ?? []);
  return lines.find((line) => line.schedule === schedule) ?? null;
}

/** Whether a line is still to be done: a second press that comes while the first one's record is already there is not. */
export function stillToDo(round: RoundId, line: RoundLine): boolean {
  if (line.asNeeded === true) return isAsDrawn(line);
  const current = lineNow(round, line.animal, line.schedule);
  return current !== null && isLeft(current);
}

/** Of an order as needed nothing more was recorded since it was drawn. */
function isAsDrawn({ animal, schedule, record }: RoundLine): boolean {
  const world = store.world.get();
  const found = world.animals.get(animal);
  const today = dayOfInstant(now(), world.shelter.zone);
  const lines = found === undefined ? [] : asNeededOf(world, found, today).map(({ line }) => line);
  return lines.find((line) => line.schedule === schedule)?.record === record;
}
