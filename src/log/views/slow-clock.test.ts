import { describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../test/support/round-log.js';

describe('a device whose clock is behind that of the desk', () => {
  it('begins, hands back and has accepted a round that the desk planned "later"', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const records = log.records.filter((record) => record.kind !== 'round-begun');
    log.records.splice(0, log.records.length, ...records);
    const subject = `round:${roundId}`;
    const slow = at(roundDay, '12:50');
    log.one('round-begun', subject, {}, slow);
    log.one('section-entered', subject, { section: 'nursery', worn: [], wentBackBecause: '' }, slow);
    log.one('handed-back', subject, { done: 0, notDone: 0, abnormal: 0 }, at(roundDay, '12:58'));
    log.one('hand-back-accepted', subject, {}, at(roundDay, '12:55'));
    const { view } = viewOf(log);
    expect(view.state).toBe('accepted');
    expect(view.facts).toMatchObject({ begunAt: slow, handedBack: { done: 0 } });
    expect(view.facts.visits).toHaveLength(1);
  });

  it('counts tests that left the cold before the desk had, by its clock, received the box', () => {
    const log = roundLog({ 'kit-1': [] });
    const of = { is: 'kit' as const, kitType: 'felv-antigen-a' as never, conjugateLot: 'K1' };
    log.one('kits-out-of-cold', 'lot:box-1', { count: 2 }, at(roundDay, '08:00'));
    log.one('lot-received', 'lot:box-1', { of, lotText: 'K1', expires: null, pieces: 5 }, at(roundDay, '08:05'));
    expect(viewOf(log).world.shelter.lots.get('box-1' as never)?.outOfCold).toHaveLength(1);
  });
});
