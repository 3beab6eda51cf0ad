import { describe, expect, it } from 'vitest';
import { animalId, at } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../../test/support/round-log.js';
import { contradiction, identityHolds, marksOf, marksSuffice, meaningOfScan } from './identity.js';

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

const identified = (log: Log, animal: string, time: string, device = 'phone-a') =>
  log.one(
    'animal-identified',
    `animal:${animal}`,
    { round: roundId, by: 'chip', compared: ['chip'] },
    at(roundDay, time),
    undefined,
    { device },
  );
const scanned = (log: Log, animal: string, code: string, time: string) =>
  log.one(
    'chip-scanned',
    `animal:${animal}`,
    {
      target: 'animal',
      occasion: 'identify',
      found: { raw: code, code, class: 'iso' },
      round: roundId as never,
    },
    at(roundDay, time),
  );

describe('what a chip says about which animal it is (Verifies: ROUND-R2)', () => {
  const { world, stop } = viewOf(twoChipped());
  const meaning = (animal: string, code: string) => meaningOfScan(stop(animal).animal, code, world.animals.values()).is;

  it.each([
    ['its own chip', 'kit-1', chipA, 'match'],
    ['its own chip, as a reader prints it', 'kit-1', '900 000 000 000 101', 'match'],
    ["another animal's chip", 'kit-1', chipB, 'other'],
    ["a chip on nobody's record, but this animal has one", 'kit-1', '900000000000999', 'not-this'],
  ])('%s', (_, animal, code, is) => {
    expect(meaning(animal, code)).toBe(is);
  });

  it('is a finding and no proof for an animal without a chip on record', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const plain = viewOf(log);
    expect(meaningOfScan(plain.stop('kit-1').animal, chipA, plain.world.animals.values()).is).toBe('unknown');
  });
});

describe('marks in place of a chip (Verifies: ROUND-R3)', () => {
  const animal = viewOf(roundLog({ 'kit-1': [] })).stop('kit-1').animal;

  it('compares what is on record and nothing else', () => {
    expect(marksOf(animal)).toEqual(['collar', 'coat', 'mark']);
    expect(marksSuffice(animal)).toBe(true);
  });

  it('is not enough with one mark', () => {
    const plain = { ...animal, marks: { collar: 'teal', coat: '', mark: ' ', photo: '' } };
    expect(marksSuffice(plain)).toBe(false);
  });
});

describe('how long an animal stays identified (Verifies: ROUND-R4)', () => {
  const holds = (log: Log, animal: string, device = 'phone-a') => {
    const { view } = viewOf(log);
    return identityHolds(view, animalId(animal), device);
  };

  it('holds for the animal identified last, and ends with the next one', () => {
    const log = twoChipped();
    expect(holds(log, 'kit-1')).toBe(false);
    identified(log, 'kit-1', '13:40');
    expect(holds(log, 'kit-1')).toBe(true);
    identified(log, 'kit-2', '13:45');
    expect(holds(log, 'kit-1')).toBe(false);
    expect(holds(log, 'kit-2')).toBe(true);
  });

  it('is not ended by what another device does', () => {
    const log = twoChipped();
    identified(log, 'kit-1', '13:40');
    identified(log, 'kit-2', '13:45', 'phone-b');
    expect(holds(log, 'kit-1')).toBe(true);
    expect(holds(log, 'kit-2')).toBe(false);
  });

  it('is ended by a chip that is not its own, until somebody has made sure again', () => {
    const log = twoChipped();
    identified(log, 'kit-1', '13:40');
    scanned(log, 'kit-1', chipB, '13:42');
    expect(contradiction(viewOf(log).stop('kit-1'), roundId)?.code).toBe(chipB);
    expect(holds(log, 'kit-1')).toBe(false);
    scanned(log, 'kit-1', chipA, '13:43');
    identified(log, 'kit-1', '13:43');
    expect(contradiction(viewOf(log).stop('kit-1'), roundId)).toBeNull();
    expect(holds(log, 'kit-1')).toBe(true);
  });
});
