import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { shelterLog } from '../../../test/support/shelter-log.js';
import { noteObservation } from '../commands/animal.js';
import { implantChip, planRound, scanChip } from '../commands/round.js';
import { roundView } from '../views/round/round.js';
import { buildWorld, dueIn } from '../views/world.js';

const kit = animalId('kit-1');
const round = 'round-1' as never;
const code = '985000000000017';

function onRound(schedule: string) {
  const log = shelterLog(1);
  const world = () => buildWorld(log.records);
  const plan = {
    on: day('2026-03-10'),
    sections: ['nursery' as never],
    treater: 'ines' as never,
    holder: null,
    lines: [{ animal: kit, schedules: [schedule as never] }],
  };
  const planned = planRound(world().shelter, round, plan, at('2026-03-10', '08:00'));
  if (!planned.ok) throw new Error('not planned');
  log.add(planned.value, 'sol');
  const line = () => roundView(world(), round)?.stops.flatMap((stop) => stop.animals.flatMap((one) => one.lines))[0];
  const due = (on: string) => {
    const now = world();
    const animal = now.animals.get(kit);
    return animal === undefined ? undefined : dueIn(now, animal, day(on)).find((one) => one.schedule === schedule);
  };
  return { log, line, due };
}

describe('something to look at on a round', () => {
  it('is done when it was noted on that round, whatever was seen', () => {
    const { log, line, due } = onRound('ringworm-lamp');
    expect(line()).toMatchObject({ action: 'look', state: 'open' });
    const body = { code: 'ringworm-lamp', state: 'absent' as const, on: day('2026-03-10') };
    log.add(noteObservation(kit, { ...body, round: null }, at('2026-03-10', '09:00')), 'ines');
    expect(line()?.state).toBe('open');
    log.add(noteObservation(kit, { ...body, round }, at('2026-03-10', '09:05')), 'ines');
    expect(line()?.state).toBe('done');
    expect(due('2026-03-11')?.status).toBe('complete');
  });

  it('a new chip is read again: asked for from the next day, done by a scan that checks it', () => {
    const { log, line, due } = onRound('chip-recheck');
    const found = { raw: code, code, class: 'iso' };
    log.add(
      implantChip(
        kit,
        { code, site: 'between-shoulder-blades', packScan: null, round: null },
        at('2026-03-09', '10:00'),
      ),
      'ines',
    );
    const scan = (
      on: string,
      occasion: 'after' | 'recheck',
      seen: typeof found | null,
      of: typeof round | null = round,
    ) => log.add(scanChip(kit, { target: 'animal', occasion, found: seen, round: of }, at(on, '10:05')), 'ines');
    scan('2026-03-09', 'after', found, null);
    expect(due('2026-03-09')).toMatchObject({ status: 'not-yet', due: '2026-03-10' });
    expect(due('2026-03-10')?.status).toBe('due');
    expect(line()?.state).toBe('open');
    scan('2026-03-10', 'recheck', null);
    expect(line()).toMatchObject({ state: 'done', abnormal: true });
    expect(due('2026-03-10')?.status).toBe('due');
    scan('2026-03-10', 'recheck', found);
    expect(line()).toMatchObject({ state: 'done', abnormal: false });
    expect(due('2026-03-10')?.status).toBe('complete');
  });
});
