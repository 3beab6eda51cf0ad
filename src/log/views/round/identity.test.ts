import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../../test/support/round-log.js';
import type { RecordId } from '../../../core/ids.js';
import { animalFlags } from '../../flags/animal-flags.js';
import { contradictions, identityHolds, meaningOfScan, toldBy } from './identity.js';

const chipA = '900000000000101';
const chipB = '900000000000202';

function twoChipped() {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
  for (const [animal, code] of [
    ['kit-1', chipA],
    ['kit-2', chipB],
  ]) {
    log.one(
      'chip-scanned',
      `animal:${animal}`,
      { target: 'animal', occasion: 'intake', found: { raw: code ?? '', code: code ?? '', class: 'iso' } },
      at('2026-03-01', '11:00'),
    );
  }
  return log;
}
type Log = ReturnType<typeof twoChipped>;

const identified = (log: Log, animal: string, time: string, device = 'phone-a', answers: readonly RecordId[] = []) =>
  log.one(
    'animal-identified',
    `animal:${animal}`,
    { round: roundId, by: 'chip', compared: ['chip'], answers: [...answers] },
    at(roundDay, time),
    undefined,
    { device },
  );
const scanned = (log: Log, animal: string, code: string, time: string, device = 'phone-a') =>
  log.one(
    'chip-scanned',
    `animal:${animal}`,
    { target: 'animal', occasion: 'identify', found: { raw: code, code, class: 'iso' }, round: roundId as never },
    at(roundDay, time),
    undefined,
    { device },
  );
const holds = (log: Log, animal: string, device = 'phone-a', since = 0) =>
  identityHolds(viewOf(log).view, animalId(animal), { device, since });

describe('what a chip says about which animal it is (Verifies: ROUND-R2)', () => {
  const { world, stop } = viewOf(twoChipped());
  const meaning = (animal: string, code: string) => meaningOfScan(stop(animal).animal, code, world).is;

  it.each([
    ['its own chip', 'kit-1', chipA, 'match'],
    ['its own chip, as a reader prints it', 'kit-1', '900 000 000 000 101', 'match'],
    ["another animal's chip", 'kit-1', chipB, 'other'],
    ["a chip on nobody's record, but this animal has one", 'kit-1', '900000000000999', 'not-this'],
  ])('%s', (_, animal, code, is) => {
    expect(meaning(animal, code)).toBe(is);
  });

  it('is what the record of the scan keeps as told (Verifies: LOG-R75)', () => {
    const { world, stop } = viewOf(twoChipped());
    const told = (code: string | null) => toldBy(stop('kit-1').animal, code, world);
    expect([chipA, chipB, '900000000000999', null].map(told)).toEqual(['match', 'other', 'not-this', null]);
  });

  it('is a finding and no proof for an animal without a chip on record', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const plain = viewOf(log);
    expect(meaningOfScan(plain.stop('kit-1').animal, chipA, plain.world).is).toBe('unknown');
  });
});

describe('how long an animal stays identified (Verifies: ROUND-R4)', () => {
  it('holds for the animal identified last, and ends with the next one', () => {
    const log = twoChipped();
    expect(holds(log, 'kit-1')).toBe(false);
    identified(log, 'kit-1', '13:40');
    expect(holds(log, 'kit-1')).toBe(true);
    identified(log, 'kit-2', '13:45');
    expect(holds(log, 'kit-1')).toBe(false);
    expect(holds(log, 'kit-2')).toBe(true);
  });

  it('is not ended by another animal that another device makes sure of', () => {
    const log = twoChipped();
    identified(log, 'kit-1', '13:40');
    identified(log, 'kit-2', '13:45', 'phone-b');
    expect(holds(log, 'kit-1')).toBe(true);
    expect(holds(log, 'kit-2')).toBe(false);
  });

  it('is ended by a change of the person who works on the device', () => {
    const log = twoChipped();
    const made = identified(log, 'kit-1', '13:40');
    expect(holds(log, 'kit-1', 'phone-a', made.deviceSeq)).toBe(true);
    expect(holds(log, 'kit-1', 'phone-a', made.deviceSeq + 1)).toBe(false);
  });
});

describe('a chip that is not its own ends it, whatever the clocks say (Verifies: ROUND-R24)', () => {
  const against = (log: Log, animal: string) =>
    contradictions(viewOf(log).stop(animal)).map((one) => one.body.found?.code);

  it('until the same device has made sure again', () => {
    const log = twoChipped();
    identified(log, 'kit-1', '13:40');
    scanned(log, 'kit-1', chipB, '13:42');
    expect(against(log, 'kit-1')).toEqual([chipB]);
    expect(holds(log, 'kit-1')).toBe(false);
    scanned(log, 'kit-1', chipA, '13:43');
    identified(log, 'kit-1', '13:43');
    expect(against(log, 'kit-1')).toEqual([]);
    expect(holds(log, 'kit-1')).toBe(true);
  });

  it('also when the clock was set back in between, and one before it never answers it', () => {
    const log = twoChipped();
    identified(log, 'kit-1', '13:40');
    scanned(log, 'kit-1', chipB, '13:38');
    expect(against(log, 'kit-1')).toEqual([chipB]);
    expect(holds(log, 'kit-1')).toBe(false);
  });

  it('also when another device read it, until an identification names it', () => {
    const log = twoChipped();
    identified(log, 'kit-1', '13:40');
    const scan = scanned(log, 'kit-1', chipB, '13:41', 'phone-b');
    expect(holds(log, 'kit-1')).toBe(false);
    // Made offline by a phone that had not seen it: no answer, though it came later by every clock.
    identified(log, 'kit-1', '13:50');
    expect(holds(log, 'kit-1')).toBe(false);
    identified(log, 'kit-1', '13:51', 'phone-a', [scan.id]);
    expect(holds(log, 'kit-1')).toBe(true);
  });

  it('for any clock and any order of arrival', () => {
    const step = fc.record({
      what: fc.constantFrom('identify' as const, 'wrong' as const),
      minute: fc.integer({ min: 10, max: 59 }),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 8 }), fc.infiniteStream(fc.nat()), (steps, luck) => {
        const log = twoChipped();
        for (const { what, minute } of steps) {
          if (what === 'identify') identified(log, 'kit-1', `13:${minute}`);
          else scanned(log, 'kit-1', chipB, `13:${minute}`);
        }
        const shuffled = [...log.records]
          .map((record) => ({ record, at: luck.next().value }))
          .sort((a, b) => a.at - b.at)
          .map(({ record }) => record);
        expect(holds({ ...log, records: shuffled }, 'kit-1')).toBe(steps.at(-1)?.what === 'identify');
      }),
    );
  });
});

describe('a chip that was read before the one on record went in (Verifies: ROUND-R81)', () => {
  it('is judged by what stood then: no chip was on record', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scanned(log, 'kit-1', chipB, '13:40');
    const body = {
      code: '900000000000303',
      site: 'between-shoulder-blades',
      packScan: null,
      lot: null,
      round: roundId,
    };
    log.one('chip-implanted', 'animal:kit-1', body as never, at(roundDay, '13:50'));
    const { world, stop } = viewOf(log);
    const records = world.bySubject.get('animal:kit-1') ?? [];
    const codes = animalFlags(stop('kit-1').animal, records, world.shelter, day(roundDay)).map(({ code }) => code);
    expect(codes).toContain('chip-read-before');
    expect(codes).not.toContain('wrong-animal');
  });
});

describe('the flag of a chip that is not its own (Verifies: ROUND-R81)', () => {
  const flags = (log: Log) => {
    const { world, stop } = viewOf(log);
    const records = world.bySubject.get('animal:kit-1') ?? [];
    const raised = animalFlags(stop('kit-1').animal, records, world.shelter, day(roundDay));
    return raised.filter((flag) => flag.code === 'wrong-animal').map((flag) => flag.about);
  };

  it('is one for the same number read again and again, and one for each other number', () => {
    const log = twoChipped();
    const first = scanned(log, 'kit-1', chipB, '13:40');
    scanned(log, 'kit-1', chipB, '13:41');
    scanned(log, 'kit-1', chipB, '13:42');
    const other = scanned(log, 'kit-1', '900000000000999', '13:43');
    expect(flags(log)).toEqual([first.id, other.id]);
  });

  it('is another one after the animal was made sure of', () => {
    const log = twoChipped();
    const first = scanned(log, 'kit-1', chipB, '13:40');
    identified(log, 'kit-1', '13:41');
    const second = scanned(log, 'kit-1', chipB, '13:42');
    expect(flags(log)).toEqual([first.id, second.id]);
  });
});
