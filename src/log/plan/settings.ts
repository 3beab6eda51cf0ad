import { assumedSeconds } from '../../core/route-plan/model/durations.js';
import { usualSettings } from '../../core/route-plan/model/settings.js';
import type { RibbonSettings } from '../kinds/ribbon.js';
import type { Shelter } from '../views/shelter.js';

/** One value the plan of a round goes by, until the shelter has its own. */
export interface RoundDefault {
  readonly id: string;
  readonly value: number;
  readonly unit: 'seconds' | 'minutes' | 'tests';
  /** No published figures were found for any of these. */
  readonly standing: 'assumption, no source';
}

const assumed = (id: string, value: number, unit: RoundDefault['unit'] = 'seconds'): RoundDefault => ({
  id,
  value,
  unit,
  standing: 'assumption, no source',
});

/** Getting in and out of a section, in seconds; putting on and taking off only where more than gloves is worn. */
export const entering = { walk: 60, don: 120, doff: 120, cart: 180 } as const;

/** Every assumed value as data: what a person can look up, and what the shelter's own medians take the place of. */
export const roundDefaults: readonly RoundDefault[] = [
  ...Object.entries({ ...assumedSeconds, ...entering }).map(([id, value]) => assumed(id, value)),
  assumed('running-tests', usualSettings.runningLimit ?? 2, 'tests'),
  assumed('sample-may-wait', usualSettings.sampleHoldMinutes, 'minutes'),
];

/** Half a minute: fine enough for every assumed length, coarse enough for the search. */
export const unitSeconds = 30;

/** No step is taken to last longer than so many times its usual length. */
export const mostRho = 3;

/** At most so many tests at once can be set; people lose count of more. */
export const mostRunning = 3;

/** As on the last round that was planned here, else the usual. */
export function settingsOf(shelter: Shelter): RibbonSettings {
  const planned = [...shelter.rounds.values()]
    .filter((round) => round.plan.ribbon !== undefined)
    .sort((a, b) => (a.plannedAt < b.plannedAt ? -1 : 1))
    .at(-1);
  return planned?.plan.ribbon?.settings ?? usualSettings;
}
