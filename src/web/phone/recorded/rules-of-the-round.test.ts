import { describe, expect, it } from 'vitest';
import { at } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../../test/support/round-log.js';
import { starterFormulary } from '../../../../test/support/shelter-log.js';
import { wayPast } from '../../../core/bedside/gate-ways.js';
import { gateCodes } from '../../../core/dosing/gate.js';
import { independently } from '../../../core/dosing/second.js';
import { onRecord, wantsAttention } from '../../../log/bedside/on-record.js';
import { wetEnds } from '../../../log/bedside/wet-time.js';
import { correct } from '../../../log/commands/animal.js';
import { enterSection, handBack, readTest } from '../../../log/commands/round.js';
import { withdrawRecord } from '../../../log/commands/shelter.js';
import { inOneLine } from './in-one-line.js';

describe('going back to a cleaner section (Verifies: ROUND-R1)', () => {
  const visited = () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const entered = { section: 'quarantine', worn: [], wentBackBecause: '' };
    log.one('section-entered', `round:${roundId}`, entered, at(roundDay, '13:35'));
    log.one('section-left', `round:${roundId}`, { section: 'quarantine', cleaned: [] }, at(roundDay, '13:45'));
    const { world, view } = viewOf(log);
    return (why: string) =>
      enterSection(
        world.shelter,
        view.facts,
        { section: 'nursery', worn: [], wentBackBecause: why },
        at(roundDay, '13:50'),
      );
  };

  it('wants a reason, and is recorded with it', () => {
    expect(visited()(' ')).toMatchObject({ ok: false, why: { say: 'log.going-back' } });
    expect(visited()('a test has to be read there').ok).toBe(true);
  });
});

describe('who opens a stop (Verifies: ROUND-R11)', () => {
  it('leaves everything that is not named to the medical team', () => {
    const of = (way: string) => gateCodes.filter((code) => wayPast(code) === way);
    expect(of('nobody')).toEqual(['never-for-cats', 'no-recipe']);
    expect(of('weigh')).toEqual(['weight-missing', 'weight-stale', 'weight-doubtful']);
    expect(of('other-lot')).toEqual(['lot-withdrawn']);
    expect(of('other-or-word')).toEqual(['lot-expired', 'strength-twin']);
    expect(of('medical')).toEqual(expect.arrayContaining(['not-for-species', 'below-label-age', 'outside-band']));
  });
});

describe('the second person (Verifies: ROUND-R12)', () => {
  const first = { grams: 680, volume_ul: 75 };
  it.each([
    ['the same weight and mark', { grams: 680, volume_ul: 75 }, true],
    ['a wriggle of the scale', { grams: 690, volume_ul: 75 }, true],
    ['another weight', { grams: 800, volume_ul: 75 }, false],
    ['the mark beside it', { grams: 680, volume_ul: 80 }, false],
    ['ten times', { grams: 680, volume_ul: 750 }, false],
  ])('comes alone to %s', (_, second, agree) => {
    expect(independently(first, second, 5).agree).toBe(agree);
  });
});

describe('wet time (Verifies: ROUND-R13)', () => {
  const { world } = viewOf(roundLog({ 'kit-1': [] }));
  const visit = (section: string, time: string | null) => ({
    section,
    left: time === null ? null : { ...timed, at: at(roundDay, time), byServer: at(roundDay, time) },
  });
  const timed = { ahead_ms: 0, sure: true, device: 'phone-a' as never, by: 'ines' as never };
  const own = { device: 'phone-a', ahead_ms: 0, sure: true };
  const minutes = world.shelter.sections.find((section) => section.id === 'nursery')?.contactMinutes ?? 0;

  it('runs from leaving, from stored instants, and the last end counts', () => {
    expect(minutes).toBeGreaterThan(0);
    const left = Date.parse(at(roundDay, '14:00'));
    const visits = [visit('quarantine', '13:50'), visit('nursery', '14:00'), visit('nursery', null)];
    const nursery = { at_ms: left + minutes * 60_000, section: 'Nursery' };
    expect(wetEnds(visits, world.shelter, own, left)).toEqual([nursery]);
    expect(wetEnds(visits, world.shelter, own, left + minutes * 60_000)).toEqual([]);
    // Neither is forgotten for the other, nor counted twice for being left twice.
    const soon = [visit('nursery', '13:59'), visit('quarantine', '13:59'), visit('nursery', '14:00')];
    expect(wetEnds(soon, world.shelter, own, left).map(({ section }) => section)).toEqual(['Nursery', 'Quarantine']);
  });

  it('of a phone 43 minutes fast is as long on the partner’s phone, and never longer (Verifies: TEST-R13)', () => {
    const now_ms = Date.parse(at(roundDay, '14:00'));
    const left = { ...timed, device: 'phone-b' as never, at: at(roundDay, '14:43'), ahead_ms: 43 * 60_000 };
    const known = [{ section: 'nursery', left: { ...left, byServer: at(roundDay, '14:00') } }];
    expect(wetEnds(known, world.shelter, own, now_ms)[0]?.at_ms).toBe(now_ms + minutes * 60_000);
    const unknown = [{ section: 'nursery', left: { ...left, byServer: left.at, ahead_ms: 0, sure: false } }];
    expect(wetEnds(unknown, world.shelter, own, now_ms)[0]?.at_ms).toBe(now_ms + minutes * 60_000);
  });
});

describe('putting right what was recorded (Verifies: ROUND-R15)', () => {
  function given() {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const record = log.one(
      'treatment-given',
      'animal:kit-1',
      {
        schedule: 'roundworm' as never,
        product: 'pyrantel-50' as never,
        lot: 'pyr-1' as never,
        volume_ul: 120,
        route: 'by mouth',
        round: roundId as never,
      },
      at(roundDay, '13:40'),
    );
    return { log, record };
  }

  it('shows the correction in the place of what it corrects, at the same time of happening', () => {
    const { log, record } = given();
    log.add(correct(record, 'treatment-given', { ...record.body, volume_ul: 100, outcome: 'not-taken' }));
    const [shown, ...more] = onRecord(viewOf(log).world, 'kit-1', roundId);
    if (shown === undefined) throw new Error('nothing stands');
    expect(more).toEqual([]);
    expect(shown.happenedAt).toBe(record.happenedAt);
    expect(inOneLine(shown, viewOf(log).world).say).toBe('round.did.given-not-taken');
    expect(wantsAttention(shown, viewOf(log).world)).toBe(true);
  });

  it('names the other strength and the stop that was passed (Verifies: DOSE-R71)', () => {
    const { log, record } = given();
    const passed = [{ gate: 'strength-twin', how: 'in-person', reason: 'the other vial is empty', by: 'maro' }];
    log.add(correct(record, 'treatment-given', { ...record.body, strength_mg_per_ml: '4.54', passed } as never));
    const { world } = viewOf(log);
    const [shown] = onRecord(world, 'kit-1', roundId);
    if (shown === undefined) throw new Error('nothing stands');
    expect(inOneLine(shown, world).with).toMatchObject({
      strength: { say: 'round.did.of-strength' },
      past: { say: 'round.did.past', with: { stops: { list: [{ say: 'gate.strength-twin' }] } } },
    });
    expect(wantsAttention(shown, world)).toBe(true);
  });

  it('opens the line again when it is taken back, which wants a reason', () => {
    const { log, record } = given();
    expect(withdrawRecord(record, { reason: ' ' }, at(roundDay, '13:45')).ok).toBe(false);
    const back = withdrawRecord(record, 'wrong-tap', at(roundDay, '13:45'));
    if (!back.ok) throw new Error('not taken back');
    log.add(back.value);
    const { world, stop } = viewOf(log);
    expect(onRecord(world, 'kit-1', roundId)).toEqual([]);
    expect(stop('kit-1').lines[0]?.state).toBe('open');
  });
});

describe('reading and handing back (Verifies: ROUND-R16, ROUND-R18)', () => {
  const kit = starterFormulary.kits[0];
  if (kit === undefined) throw new Error('the starter formulary has no kit');

  it('does not take a reading with a zone left out', () => {
    const seen = { control: 'seen' as const };
    expect(readTest('kit-1' as never, kit, { run: 'r' as never, seen }, at(roundDay)).ok).toBe(false);
  });

  it('does not take the round back while a test runs', () => {
    const body = { done: 1, notDone: 0, abnormal: 0 };
    expect(handBack(roundId as never, body, 1, at(roundDay)).ok).toBe(false);
    expect(handBack(roundId as never, body, 0, at(roundDay)).ok).toBe(true);
  });
});
