import { holdNamed, observationNamed, usualObservations } from '../core/animal/named.js';
import { codesOf } from '../core/protocol/document/document.js';
import type { Said } from '../core/said.js';
import type { World } from '../log/views/world.js';
import { say } from '../words/say.js';

/** The code in words; one without words of its own stands for itself. */
export const observationWords = (code: string): string => inWords(observationNamed(code));
export const holdWords = (code: string): string => inWords(holdNamed({ code, note: '' }));

const inWords = (named: Said | string): string => (typeof named === 'string' ? named : say(named));

/** Usual observations first, then those that only the signed protocol and the conditions of products ask for. */
export function observationCodes(world: World): string[] {
  const apart = world.shelter.protocol?.keepApart ?? [];
  const asked = (world.shelter.protocol?.schedules ?? []).flatMap((schedule) => [
    ...schedule.holds.flatMap((hold) => (hold.when.is === 'observation' ? [hold.when.code] : [])),
    ...schedule.series.flatMap((series) => series.targets.flatMap((target) => codesOf(target.on))),
  ]);
  const conditions = (world.shelter.formulary?.products ?? []).flatMap((product) =>
    product.conditions.flatMap((one) => (one.is === 'seen' ? one.codes : [])),
  );
  return [...new Set([...usualObservations, ...apart.map(({ code }) => code), ...asked, ...conditions])];
}
