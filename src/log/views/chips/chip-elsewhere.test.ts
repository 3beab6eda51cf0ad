import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { animalId, at, day, kitten, testLog } from '../../../../test/support/log.js';
import { ChipEntry, noChips, withChips } from '../../chip-index.js';
import { flagsIn } from '../../flags/flags.js';
import { draft } from '../../record.js';
import { chipNumbersOf } from '../../rows/chip-numbers.js';
import { effective } from '../effective.js';
import { meaningOfScan } from '../round/identity.js';
import { buildWorld, type World, withoutAnimals } from '../world.js';
import { chipOnPaper } from './chip-by-end.js';
import { carriedElsewhere } from './chip-elsewhere.js';
import { checkPack } from './chip-pack.js';

/** What the server's index has of a world, by way of its rows. */
function indexOf(world: World): ChipEntry[] {
  return [...world.animals.values()].flatMap((animal) => {
    const rows = chipNumbersOf(animal, effective(world.bySubject.get(`animal:${animal.id}`) ?? []));
    const [first] = rows;
    if (first === undefined) return [];
    const { label, left_on: left } = first;
    const numbers = rows.map(({ code, standing: is }) => ({ code, is }));
    return [ChipEntry.parse({ animal: animal.id, label, left, numbers })];
  });
}

/** The world of a device: without the animals that left, with the index in their place. */
function onDevice(full: World): World {
  const left = [...full.animals.values()].filter((animal) => animal.left !== null).map(({ id }) => id);
  return { ...withoutAnimals(full, left), chips: withChips(noChips, indexOf(full)) };
}

// Fifteen digits, an older kind with letters, one with a zero in front, and two that end alike.
const codes = ['985141000000001', '985141000010001', '036012345678901', '4A12345678', '012345678'];
const animals = ['one', 'two', 'three'];
const noon = at('2026-03-02', '12:00');
const found = (code: string) => ({ raw: code, code, class: 'iso' });

const act = fc.record({
  animal: fc.constantFrom(...animals),
  code: fc.constantFrom(...codes),
  what: fc.constantFrom('implanted', 'intake', 'identify', 'of-another', 'discarded', 'left', 'pack'),
});

function logOf(acts: readonly (typeof act extends fc.Arbitrary<infer A> ? A : never)[]): World {
  const log = testLog();
  for (const name of animals) {
    log.add([draft('animal-taken-in', `animal:${name}`, kitten(name, '2026-01-20', { label: `L-${name}` }), noon)]);
  }
  log.add([
    draft(
      'lot-received',
      'lot:box',
      { of: { is: 'chips', codes: codes.slice(0, 3) }, lotText: 'B', expires: null, pieces: 3 } as never,
      noon,
    ),
  ]);
  for (const { animal, code, what } of acts) {
    const subject = `animal:${animal}`;
    const scan = { target: 'animal', found: found(code) } as const;
    if (what === 'implanted')
      log.one('chip-implanted', subject, { code, site: 'between-shoulder-blades', packScan: null }, noon);
    else if (what === 'discarded') log.one('chip-discarded', subject, { code, implant: null, why: 'dropped' }, noon);
    else if (what === 'left') log.one('animal-left', subject, { how: 'adopted', on: day('2026-03-02') }, noon);
    else if (what === 'of-another')
      log.one('chip-scanned', subject, { ...scan, occasion: 'before', ofAnother: true }, noon);
    else if (what === 'pack') log.one('chip-scanned', subject, { ...scan, target: 'pack', occasion: 'pack' }, noon);
    else log.one('chip-scanned', subject, { ...scan, occasion: what }, noon);
  }
  return buildWorld(log.records);
}

describe('a device that holds only animals in care (Verifies: LOG-R105)', () => {
  const today = day('2026-03-02');
  const aboutChips = (world: World, here: World) =>
    flagsIn(world, today)
      .filter(
        ({ code, animal }) =>
          ['chip-shared', 'chip-owner', 'chip-put-off'].includes(code) && (animal === null || here.animals.has(animal)),
      )
      .map(({ key }) => key)
      .sort();

  it('says of every number what the whole record says', () => {
    let left = 0;
    fc.assert(
      fc.property(fc.array(act, { maxLength: 14 }), (acts) => {
        const full = logOf(acts);
        const device = onDevice(full);
        left += full.animals.size - device.animals.size;
        for (const code of codes) {
          const [whole, own] = [checkPack(code, full), checkPack(code, device)];
          expect(own.ok, code).toBe(whole.ok);
          // Not only that it may not be used: why, as near as the index knows.
          if (!whole.ok && !own.ok) expect(own.why.say.replace('-left', '')).toBe(whole.why.say);
          for (const animal of device.animals.values()) {
            const meaning = meaningOfScan(animal, code, full);
            const gone = meaning.is === 'other' && !device.animals.has(meaning.animal.id);
            const there = meaningOfScan(animal, code, device);
            // Of two that carry it, one here is named first on the device.
            if (gone && there.is === 'other') expect(full.animals.get(there.animal.id)?.chip?.code).toBe(code);
            else expect(there.is).toBe(gone ? 'elsewhere' : meaning.is);
          }
        }
        // One that left and carries the number of another that left is for the server to say.
        const shared = aboutChips(full, device).filter((key) => {
          const carriers = [...device.animals.values()].filter(({ chip }) => key === `chip-shared:${chip?.code}`);
          return !key.startsWith('chip-shared') || carriers.length > 0;
        });
        expect(aboutChips(device, device)).toEqual(shared);
      }),
      { numRuns: 300 },
    );
    expect(left).toBeGreaterThan(50);
  });

  it('takes the end of a number on paper for no chip that went into an animal which left', () => {
    const full = logOf([
      { animal: 'one', code: '985141000000001', what: 'implanted' },
      { animal: 'one', code: '985141000000001', what: 'left' },
    ]);
    const device = onDevice(full);
    for (const world of [full, device]) {
      expect(chipOnPaper(world, animalId('two'), '0001')).toMatchObject({
        ok: true,
        value: { code: '985141000010001' },
      });
    }
  });

  it('names it by label and the day it left, whatever way the number is written', () => {
    const full = logOf([
      { animal: 'two', code: '4A12345678', what: 'intake' },
      { animal: 'two', code: '4A12345678', what: 'left' },
    ]);
    const device = onDevice(full);
    expect(carriedElsewhere(device, '4a12345678')).toMatchObject({ label: 'L-two', left: '2026-03-02' });
    expect(carriedElsewhere(device, '4A 1234 5678')).toMatchObject({ animal: 'two' });
    expect(carriedElsewhere(full, '4A12345678')).toBeNull();
    expect(checkPack('4A12345678', device)).toMatchObject({
      why: { say: 'round.chip.taken-left', with: { animal: { say: 'chip.left', with: { label: 'L-two' } } } },
    });
  });
});

it('an index takes what is new in place of what was known, and nothing of what is here', () => {
  const entry = (animal: string, ...all: string[]): ChipEntry =>
    ChipEntry.parse({ animal, label: animal, left: null, numbers: all.map((code) => ({ code, is: 'carried' })) });
  const first = withChips(noChips, [entry('a', '1', '2'), entry('b', '2')]);
  expect(first.byCode.get('2')).toEqual(['a', 'b']);
  const next = withChips(first, [entry('a', '3')], [animalId('b')]);
  expect([...next.byCode]).toEqual([['3', ['a']]]);
  expect(first.byCode.get('1')).toEqual(['a']);
});
