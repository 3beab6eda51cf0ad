import type { Animal } from '../../../core/animal/animal.js';
import type { CalendarDate } from '../../../core/calendar.js';
import type { ScheduleId } from '../../../core/ids.js';
import {
  type ChangedChoice,
  type ChangedValue,
  changedChoices,
  changedValues,
} from '../../../core/protocol/document/compare.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { dueOf } from '../due/due.js';
import type { Shelter } from '../shelter.js';

/** What changes for one animal in one schedule. */
export interface Effect {
  readonly animal: Animal;
  readonly schedule: ScheduleId;
  readonly scheduleName: string;
  /**
   * `newly-due`: due or overdue with the new version only. `no-longer-due`: with the old one only. `moved`: due on
   * another day. `otherwise`: the same day, but held, complete or listed otherwise.
   */
  readonly change: 'newly-due' | 'no-longer-due' | 'moved' | 'otherwise';
  /** Null where that version has no such schedule. */
  readonly before: DueItem | null;
  readonly after: DueItem | null;
}

export type EffectCounts = Readonly<Record<Effect['change'], number>>;

export interface EffectOfSigning {
  /** In the order of the animals given, then of the draft's schedules. */
  readonly effects: readonly Effect[];
  /** Animals that something changes for. */
  readonly animals: number;
  readonly counts: EffectCounts;
  /** The same by schedule, in the order of the draft. */
  readonly bySchedule: readonly {
    readonly schedule: ScheduleId;
    readonly name: string;
    readonly counts: EffectCounts;
  }[];
  /** Values that differ from the version in force, each with the source it departs from; empty without one. */
  readonly values: readonly ChangedValue[];
  readonly choices: readonly ChangedChoice[];
}

/** The part of a world that is asked about. */
export interface InCare {
  readonly shelter: Shelter;
  /** Animals in care, in the order in which they are to be shown. */
  readonly animals: readonly Animal[];
}

/**
 * What signing a draft would change today for every animal in care, compared with the version in force, and which
 * published source each changed value departs from. Nothing is written.
 */
export function effectOfSigning(
  { shelter, animals }: InCare,
  draft: ProtocolDocument,
  today: CalendarDate,
): EffectOfSigning {
  const signed = { ...shelter, protocol: draft };
  const effects = animals.flatMap((animal) => effectsOn(animal, shelter, signed, today));
  const schedules = [...new Map(effects.map(({ schedule, scheduleName }) => [schedule, scheduleName]))].sort(
    ([a], [b]) => placeIn(draft, a) - placeIn(draft, b),
  );
  return {
    effects,
    animals: new Set(effects.map(({ animal }) => animal.id)).size,
    counts: countsOf(effects),
    bySchedule: schedules.map(([schedule, name]) => ({
      schedule,
      name,
      counts: countsOf(effects.filter((one) => one.schedule === schedule)),
    })),
    values: shelter.protocol === null ? [] : changedValues(shelter.protocol, draft),
    choices: shelter.protocol === null ? [] : changedChoices(shelter.protocol, draft),
  };
}

function placeIn(draft: ProtocolDocument, schedule: ScheduleId): number {
  const place = draft.schedules.findIndex((one) => one.id === schedule);
  return place < 0 ? draft.schedules.length : place;
}

function effectsOn(animal: Animal, now: Shelter, signed: Shelter, today: CalendarDate): Effect[] {
  const before = new Map(dueOf(animal, now, today).map((item) => [item.schedule, item]));
  const after = new Map(dueOf(animal, signed, today).map((item) => [item.schedule, item]));
  return [...new Set([...after.keys(), ...before.keys()])].flatMap((schedule): Effect[] => {
    const [was, will] = [before.get(schedule) ?? null, after.get(schedule) ?? null];
    const change = changeOf(was, will);
    if (change === null) return [];
    const scheduleName = will?.scheduleName ?? was?.scheduleName ?? schedule;
    return [{ animal, schedule, scheduleName, change, before: was, after: will }];
  });
}

const isDue = (item: DueItem | null): boolean => item?.status === 'due' || item?.status === 'overdue';

function changeOf(was: DueItem | null, will: DueItem | null): Effect['change'] | null {
  if (!isDue(was) && isDue(will)) return 'newly-due';
  if (isDue(was) && !isDue(will)) return 'no-longer-due';
  if ((was?.due ?? null) !== (will?.due ?? null)) return 'moved';
  return sameStanding(was, will) ? null : 'otherwise';
}

/** A schedule that asks for nothing is the same as none. */
const sameStanding = (was: DueItem | null, will: DueItem | null): boolean =>
  (was?.status ?? 'not-recommended') === (will?.status ?? 'not-recommended') &&
  (was?.hold?.code ?? null) === (will?.hold?.code ?? null);

const countsOf = (effects: readonly Effect[]): EffectCounts => {
  const count = (change: Effect['change']): number => effects.filter((one) => one.change === change).length;
  return {
    'newly-due': count('newly-due'),
    'no-longer-due': count('no-longer-due'),
    moved: count('moved'),
    otherwise: count('otherwise'),
  };
};
