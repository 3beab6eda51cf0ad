import type { BodyInput } from '../../src/log/kinds/index.js';
import { draft } from '../../src/log/record.js';
import { roundView } from '../../src/log/views/round.js';
import { buildWorld } from '../../src/log/views/world.js';
import { at } from './log.js';
import { shelterLog } from './shelter-log.js';

/** The day of the round in these tests; the kittens of `shelterLog` are 5 weeks and 5 days old. */
export const roundDay = '2026-03-01';
export const roundId = 'round-1';

/** The invented test shelter with a round planned and begun over its nursery. */
export function roundLog(lines: Readonly<Record<string, readonly string[]>>, kittens = 3) {
  const log = shelterLog(kittens);
  const plan = {
    on: roundDay,
    sections: ['nursery', 'quarantine'],
    treater: 'ines',
    holder: 'sol',
    lines: Object.entries(lines).map(([animal, schedules]) => ({ animal, schedules: [...schedules] })),
  } as unknown as BodyInput<'round-planned'>;
  log.add([draft('round-planned', `round:${roundId}`, plan, at(roundDay, '13:00'))], 'sol');
  log.add([draft('round-begun', `round:${roundId}`, {}, at(roundDay, '13:30'))]);
  return log;
}

type Log = ReturnType<typeof roundLog>;

export function viewOf(log: Log) {
  const world = buildWorld(log.records);
  const view = roundView(world, roundId as never);
  if (view === null) throw new Error('the round was not planned');
  const stop = (animal: string) => {
    const found = view.stops.flatMap((one) => one.animals).find((one) => one.animal.id === animal);
    if (found === undefined) throw new Error(`${animal} is not on the round`);
    return found;
  };
  return { world, view, stop };
}
