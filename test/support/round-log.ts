import type { BodyInput } from '../../src/log/kinds/index.js';
import { draft } from '../../src/log/record.js';
import { roundView } from '../../src/log/views/round/round.js';
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

type RoundLog = ReturnType<typeof roundLog>;

/** An instant of the day of the round. */
export const when = (time: string): string => at(roundDay, time);

/** The team goes into the nursery. */
export const entered = (log: RoundLog, time = '13:30'): void => {
  log.one('section-entered', `round:${roundId}`, { section: 'nursery', worn: [] }, when(time));
};

interface Blood {
  readonly run?: string;
  readonly volume_ul?: number;
  readonly usable?: boolean;
  readonly syringeLot?: string;
}

/** Blood of a kitten is drawn for its FeLV test: 100 µL and usable, where nothing else is said. */
export const drawn = (log: RoundLog, kitten: number, time: string, blood: Blood = {}): void => {
  const usual = { run: `run-${kitten}`, volume_ul: 100, usable: true };
  const body = { schedule: 'felv-test', round: roundId, sample: 'whole-blood', ...usual, ...blood };
  log.one('sample-drawn', `animal:kit-${kitten}`, body as never, when(time));
};

/** A test is started from that blood; the second one of the same draw has a run of its own. */
export const started = (
  log: RoundLog,
  kitten: number,
  time: string,
  schedule: 'felv-test' | 'fiv-test' = 'felv-test',
  draw = `run-${kitten}`,
): void => {
  const kit = { lot: null, kitLot: 'K27', conjugateLot: 'K27', outOfColdAt: null };
  const of =
    schedule === 'felv-test'
      ? { run: draw, kitType: 'felv-antigen-a' }
      : { run: `${draw}+fiv-test`, kitType: 'fiv-antibody-a' };
  log.one('test-started', `animal:kit-${kitten}`, { schedule, round: roundId, ...of, ...kit } as never, when(time));
};
