import { describe, expect, it } from 'vitest';
import { day } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf, when } from '../../../../test/support/round-log.js';
import { correct } from '../../commands/animal.js';
import { leaveForToday, tellOfChip } from '../../commands/round.js';
import { flagsIn } from '../../flags/flags.js';
import type { BodyInput } from '../../kinds/index.js';
import { contradictions } from '../round/identity.js';
import { chipCourse } from './chip-course.js';
import { checkPack } from './chip-pack.js';

const owners = '977200008123456';
type Log = ReturnType<typeof roundLog>;

const read = (
  log: Log,
  occasion: BodyInput<'chip-scanned'>['occasion'],
  code: string | null,
  time: string,
  round: string | null = roundId,
) => {
  const found = code === null ? null : { raw: code, code, class: 'iso' };
  const target = occasion === 'pack' ? 'pack' : 'animal';
  return log.one('chip-scanned', 'animal:kit-1', { target, occasion, found, round: round as never }, when(time));
};
const overridden = (log: Log, time: string, answers: readonly string[]) => {
  const body = { round: roundId, by: 'override', reason: 'marks-alike', compared: [], answers };
  log.one('animal-identified', 'animal:kit-1', body as never, when(time));
};
const courseOf = (log: Log) => {
  const { animal, own } = viewOf(log).stop('kit-1');
  return chipCourse(own, animal.scans);
};
const flagsOf = (log: Log) => flagsIn(viewOf(log).world, day(roundDay)).map(({ code }) => code);

/** Read to identify a kitten without a chip on record, and gone past with a reason. */
function goneOn(): Log {
  const log = roundLog({ 'kit-1': ['chip'] });
  const scan = read(log, 'identify', owners, '13:40');
  overridden(log, '13:41', [scan.id]);
  return log;
}

describe('a chip that was read in the animal (Verifies: CHIP-R31)', () => {
  it('stops the implant although it was read to identify, and none was found since', () => {
    const log = goneOn();
    expect(courseOf(log)).toMatchObject({ is: 'found', code: owners });
    read(log, 'before', null, '13:42');
    read(log, 'pack', '900000000000303', '13:43');
    expect(courseOf(log)).toMatchObject({ is: 'found', code: owners });
  });

  it('stops it when it was read on an earlier round, or at intake', () => {
    for (const occasion of ['identify', 'intake'] as const) {
      const log = roundLog({ 'kit-1': ['chip'] });
      read(log, occasion, owners, '11:00', occasion === 'identify' ? 'round-0' : null);
      expect(courseOf(log)).toMatchObject({ is: 'found', code: owners });
    }
  });

  it("until it is answered as another cat's: then this one is scanned again, and stays made sure of", () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    read(log, 'before', null, '13:39');
    const scan = read(log, 'identify', owners, '13:40');
    overridden(log, '13:41', [scan.id]);
    log.add(correct(scan, 'chip-scanned', { ...scan.body, ofAnother: true }));
    expect(courseOf(log).is).toBe('scan-before');
    expect(contradictions(viewOf(log).stop('kit-1'))).toEqual([]);
    read(log, 'before', null, '13:42');
    expect(courseOf(log).is).toBe('scan-pack');
    expect(flagsOf(log)).toContain('chip-put-off');
    expect(viewOf(log).stop('kit-1').animal.chip).toBeNull();
  });

  it('a number put off as misread never stands as the chip on record', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    const scan = read(log, 'before', owners, '13:40');
    expect(viewOf(log).stop('kit-1').animal.chip?.code).toBe(owners);
    log.add(correct(scan, 'chip-scanned', { ...scan.body, ofAnother: true }));
    expect(viewOf(log).stop('kit-1').animal.chip).toBeNull();
  });
});

describe('a number that was read in an animal (Verifies: CHIP-R32)', () => {
  it('is refused at the pack, of this animal and of any other', () => {
    const log = goneOn();
    expect(checkPack(owners, viewOf(log).world)).toMatchObject({ ok: false, why: { say: 'round.chip.was-read' } });
  });

  it("is flagged once as a possible owner's chip, unless it is another animal's on record", () => {
    const log = goneOn();
    read(log, 'identify', owners, '13:45');
    const flag = flagsIn(viewOf(log).world, day(roundDay)).filter(({ code }) => code === 'chip-owner');
    expect(flag).toMatchObject([{ severity: 'stop', for: ['supervisor', 'medical'] }]);
    const found = { raw: owners, code: owners, class: 'iso' };
    log.one('chip-scanned', 'animal:kit-2', { target: 'animal', occasion: 'intake', found }, when('10:00'));
    expect(flagsOf(log)).not.toContain('chip-owner');
  });
});

describe('what was said is what is written down (Verifies: CHIP-R33)', () => {
  it('left for today, with what stood in the way; told to the desk', () => {
    const animal = 'kit-1' as never;
    const [left] = leaveForToday(
      animal,
      'chip' as never,
      { say: 'due.hold.placed', with: { what: 'ill' } },
      roundId as never,
      when('13:40'),
    );
    expect(left?.body).toMatchObject({
      reason: 'left-for-today',
      because: { say: 'due.hold.placed', with: { what: 'ill' } },
    });
    const [told] = tellOfChip(animal, 'chip' as never, roundId as never, when('13:40'));
    expect(told?.body).toMatchObject({ reason: 'chip-read' });
  });
});
