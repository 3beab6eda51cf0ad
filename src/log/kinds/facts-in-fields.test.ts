import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { said } from '../../core/said.js';
import { abandonTest, leaveForToday } from '../commands/round.js';
import { withdrawRecord } from '../commands/shelter.js';
import { flagsIn } from '../flags/flags.js';
import { draft, stamp } from '../record.js';
import { kinds } from './index.js';

const kit = 'animal:kit-1';
const passed = (how: string, more: object = {}) => ({
  schedule: 'roundworm',
  product: 'pyrantel-50',
  lot: 'pyr-1',
  volume_ul: 120,
  route: 'oral',
  round: roundId,
  passed: [{ gate: 'weight-stale', how, by: 'ines', ...more }],
});

describe('what the program knows stands in fields, in no language (Verifies: LOG-R75)', () => {
  it('how a stop was passed', () => {
    const why = (how: string, more?: object): unknown => {
      const log = roundLog({ 'kit-1': ['roundworm'] });
      log.one('treatment-given', kit, passed(how, more) as never, when('13:40'));
      return flagsIn(viewOf(log).world, day(roundDay)).find(({ code }) => code === 'gate-passed')?.why.with?.reason;
    };
    expect(why('no-word')).toEqual(said('gate-passed.no-word'));
    expect(why('no-word-on-paper')).toEqual(said('gate-passed.no-word-on-paper'));
    expect(why('second-person', { agreed: { grams: 620, volume_ul: 120 } })).toEqual(
      said('gate-passed.second-person', {
        weight: { grams: 620 },
        volume: said('gate-passed.volume', { volume: { microlitres: 120 } }),
      }),
    );
    const how = said('round.gate.reason.by-telephone');
    expect(why('by-telephone', { reason: 'seen today' })).toEqual(
      said('gate-passed.word', { reason: 'seen today', how }),
    );
    // A word on record is told as it was written there.
    expect(why('on-record', { reason: 'flea anaemia', word: 'rec-1' })).toBe('flea anaemia');
    expect(kinds['treatment-given'].safeParse(passed('because I said so')).success).toBe(false);
  });

  it('why something was left, given up or taken back', () => {
    const why = said('open.hold-until', { what: 'ill', until: { date: day('2026-03-09') } });
    const [left] = leaveForToday('kit-1' as never, 'chip' as never, why, roundId as never, when('13:40'));
    expect(left?.body).toMatchObject({ reason: 'left-for-today', because: why });
    const [given] = abandonTest('kit-1' as never, { run: 'run-1' as never, why: 'draw-failed' }, when('13:41'));
    expect(given?.body).toEqual({ run: 'run-1', why: 'draw-failed' });
    const back = withdrawRecord({ id: 'rec-1' as never, subject: kit }, 'wrong-tap', when('13:42'));
    expect(back.ok && back.value[0]?.body).toEqual({ why: 'wrong-tap' });
    expect(kinds['record-withdrawn'].safeParse({}).success).toBe(false);
    expect(kinds['record-withdrawn'].safeParse({ reason: ' ' }).success).toBe(false);
  });

  it('a sentence in a record is a key and values of known kinds, and nothing that a screen could break on', () => {
    const because = (given: unknown): boolean =>
      kinds['treatment-not-given'].safeParse({ schedule: 'chip', reason: 'other', because: given }).success;
    expect(because(said('due.hold.placed', { what: { list: ['ill', said('open.hold')] } }))).toBe(true);
    for (const bad of [
      { say: '' },
      { say: 'x', with: { at: { instant: 'noon' } } },
      { say: 'x', with: { a: null } },
      'x',
    ])
      expect(because(bad)).toBe(false);
  });

  it('where a chip was put, and what a scan told the person', () => {
    const [scan] = stamp(
      [draft('chip-scanned', kit, { target: 'animal', occasion: 'identify', found: null } as never, when('13:40'))],
      {
        shelter: 's' as never,
        zone: 'UTC',
        by: 'ines' as never,
        device: 'd' as never,
        nextSeq: 1,
        now: when('13:40'),
        newId: () => 'r',
      },
    );
    expect(scan?.body).toMatchObject({ told: null });
    const at = (site: string): boolean =>
      kinds['chip-implanted'].safeParse({ code: '900000000000001', site, packScan: null }).success;
    expect(['between-shoulder-blades', 'not-written', 'Midline'].map(at)).toEqual([true, true, false]);
  });
});
