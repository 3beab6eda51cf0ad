import { expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { shelterLog } from '../../../test/support/shelter-log.js';
import { RoundId, ScheduleId } from '../../core/ids.js';
import { give } from '../commands/round.js';
import { buildWorld } from '../views/world.js';
import { givenAlready } from './given-already.js';

const cat = animalId('kit-1');
const schedule = ScheduleId.parse('roundworm');
const facts = {
  id: RoundId.parse('paper'),
  plan: { on: day('2026-03-20') } as never,
  plannedAt: at('2026-03-19', '18:00'),
};

it('a dose of the line that is on record already is known, with when and who (Verifies: SHEET-R25)', () => {
  const dose = { schedule, product: 'pyrantel-50' as never, lot: null, volume_ul: 160, route: 'by mouth' };
  const found = (on: string, time: string, more: object = {}) => {
    const log = shelterLog(1);
    log.add(give(cat, { ...dose, ...more }, at(on, time)), 'ines', 'phone');
    const record = givenAlready(buildWorld(log.records), cat, schedule, facts);
    return record === null ? null : [record.by, record.happenedAt];
  };
  expect(found('2026-03-20', '10:00')).toEqual(['ines', at('2026-03-20', '10:00')]);
  expect(found('2026-03-20', '10:00', { round: 'paper' })).not.toBeNull();
  expect(found('2026-03-20', '10:00', { round: 'other' })).not.toBeNull();
  expect(found('2026-03-19', '19:00')).not.toBeNull();
  expect(found('2026-03-19', '17:00')).toBeNull();
  expect(found('2026-03-21', '10:00')).toBeNull();
  expect(found('2026-03-20', '10:00', { schedule: null })).toBeNull();
  expect(found('2026-03-20', '10:00', { outcome: 'not-taken' })).toBeNull();
});
