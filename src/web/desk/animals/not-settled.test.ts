import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import { buildWorld } from '../../../log/views/world.js';
import { stateOfDue } from '../../../told/due-words.js';
import { setNames } from '../../../words/say.js';
import { dueList } from '../due/due-list.js';
import { notSettled } from './not-settled.js';

/** A ward with Pip, whose test showed the mark at a minute after it was started. */
function withMark(readAt: string) {
  const log = ward();
  log.take('pip', '2026-01-20');
  const run = { run: 'run-1', schedule: 'felv-test' };
  const drawn = { ...run, volume_ul: 120, usable: true, sample: 'whole-blood' };
  const kit = { kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A', conjugateLot: 'KIT-A', outOfColdAt: null };
  const seen = { control: 'seen', antigen: 'seen', invalid: 'not-seen' } as const;
  log.one('sample-drawn', 'animal:pip', drawn as never, at('2026-03-10', '09:50'));
  log.one('test-started', 'animal:pip', { ...run, ...kit } as never, at('2026-03-10', '10:00'));
  log.one('test-read', 'animal:pip', { run: 'run-1' as never, seen }, `2026-03-10T10:${readAt}.000Z`);
  return log;
}
const today = day('2026-03-11');
function inList(log: ReturnType<typeof ward>): string[] {
  const world = buildWorld(log.records);
  const pip = world.animals.get(animalId('pip'));
  return pip === undefined ? [] : notSettled(world, pip, today).map(({ tone, text }) => `${tone}: ${text}`);
}

describe('the list of animals (Verifies: ROUND-R62)', () => {
  it('names a reactive test, and a mark on one that does not count', () => {
    expect(inList(withMark('08:30'))).toEqual(['stop: FeLV test: reactive, to be confirmed']);
    expect(inList(withMark('30:00'))).toEqual([
      'stop: Mark seen, test does not count',
      'attention: FeLV test: to be repeated',
    ]);
    expect(inList(ward())).toEqual([]);
  });
});

describe('the due list after a plan (Verifies: ROUND-R60)', () => {
  it('keeps the line, with the day and the person of the medical team', () => {
    const log = withMark('08:30');
    const says: BodyInput<'test-followed-up'>['says'] = { is: 'plan', what: 'another method', on: day('2026-03-20') };
    const word = { schedule: 'felv-test' as never, says, person: 'mara' as never };
    log.one('test-followed-up', 'animal:pip', word, at('2026-03-10', '12:00'));
    setNames(new Map([['mara', { name: 'Mara', licence: '' }]]));
    const filter = { section: 'all', litter: 'all', schedule: 'felv-test', by: 'section' } as const;
    for (const show of ['today', 'week', 'waiting'] as const) {
      const rows = dueList(buildWorld(log.records), today, { ...filter, show }).flatMap((group) => group.rows);
      expect(rows.map(({ item }) => stateOfDue(item))).toEqual([
        { tone: 'stop', text: expect.stringMatching(/next test planned for .*20.*: Mara, medical team/) },
      ]);
    }
  });
});
