import { describe, expect, it } from 'vitest';
import { animalId, at, day, kitten, testLog } from '../../../test/support/log.js';
import { shelterLog, starterFormulary } from '../../../test/support/shelter-log.js';
import { LotId, PersonId, RoundId, RunId, ScheduleId } from '../../core/ids.js';
import { flagsIn } from '../flags/flags.js';
import { asPrinted, asPrintedLast } from '../plan/as-printed.js';
import { type Draft, draft } from '../record.js';
import { chipOnPaper } from '../views/chips/chip-by-end.js';
import { roundView } from '../views/round/round.js';
import { buildWorld } from '../views/world.js';
import { weighAnimal } from './animal.js';
import { doneBy, identifiedOnPaper, type PaperTest, testOnPaper } from './paper.js';
import { give } from './round.js';

const kit = starterFormulary.kits.find((one) => one.id === 'felv-antigen-a');
if (kit === undefined) throw new Error('the starter has no such kit');
const cat = animalId('kit-1');
const round = RoundId.parse('paper');
const ines = PersonId.parse('ines');
const today = day('2026-04-20');
const when = (time: string): string => at('2026-04-20', time);

const written: PaperTest = {
  run: RunId.parse('run-1'),
  schedule: ScheduleId.parse('felv-test'),
  kit,
  lot: null,
  kitLot: 'K1',
  conjugateLot: 'k 1',
  startedAt: when('10:00'),
  readAt: when('10:09'),
  seen: { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' },
  readBy: ines,
  volume_ul: null,
  drops: null,
  syringeLot: null,
  note: '',
  round,
  day: when('09:00'),
  drawn: false,
  started: false,
};

/** The result of a test as it is written, and what is flagged about the animal. */
function keyedIn(change: Partial<PaperTest>) {
  const log = shelterLog(1);
  const drafts = testOnPaper(cat, { ...written, ...change });
  if (!drafts.ok) return { refused: drafts.why.say };
  log.add(drafts.value, 'sol', 'desk', when('18:00'));
  const world = buildWorld(log.records);
  const flags = flagsIn(world, today).filter((flag) => flag.animal === cat);
  return { result: world.animals.get(cat)?.runs[0]?.result, flags: flags.map(({ code }) => code).sort() };
}
const reactive = { control: 'seen', antigen: 'faint', invalid: 'not-seen' } as const;

describe('a test on paper', () => {
  it('is worked out from the written times and zones (Verifies: SHEET-R3)', () => {
    expect(keyedIn({})).toEqual({ result: 'negative', flags: [] });
    expect(keyedIn({ seen: reactive })).toEqual({ result: 'reactive', flags: ['reactive'] });
    expect(keyedIn({ readAt: when('10:11') })).toEqual({ result: 'not-valid', flags: ['test-not-valid'] });
    expect(keyedIn({ readAt: when('10:07') })).toMatchObject({ result: 'not-valid' });
    expect(keyedIn({ readAt: when('09:59') })).toEqual({ refused: 'ribbon.key-in.read-before-start' });
  });

  it('does not count without its times, and a mark does not go unseen (Verifies: SHEET-R4)', () => {
    const without: Partial<PaperTest>[] = [{ startedAt: null }, { readAt: null }, { startedAt: null, readAt: null }];
    for (const times of without) {
      expect(keyedIn(times)).toEqual({ result: 'not-valid', flags: ['test-untimed'] });
      expect(keyedIn({ ...times, seen: reactive })).toEqual({ result: 'not-valid', flags: ['mark-not-counted'] });
    }
    expect(keyedIn({ seen: null, readAt: null })).toEqual({ result: 'abandoned', flags: ['test-abandoned'] });
  });

  it('keeps lots as they are written, and says which are not (Verifies: SHEET-R5)', () => {
    expect(keyedIn({ kitLot: '' })).toEqual({ result: 'negative', flags: ['kit-lot-unknown'] });
    expect(keyedIn({ kitLot: '', conjugateLot: '' })).toEqual({ result: 'negative', flags: ['kit-lot-unknown'] });
    expect(keyedIn({ conjugateLot: 'K2' })).toEqual({
      result: 'not-valid',
      flags: ['kit-lot-differs', 'test-not-valid'],
    });
  });
});

describe('a chip on paper (Verifies: SHEET-R6)', () => {
  const log = testLog();
  const box = ['900000000204101', '900000000204102', '900000000214102', '900000000204109'];
  const of = { is: 'chips' as const, codes: box };
  const lots = { of, lotText: 'B1', expires: null, pieces: 4 };
  log.add([
    draft('lot-received', 'lot:b1', lots, when('08:00')),
    draft('animal-taken-in', 'animal:kit-1', kitten('One', '2026-01-20'), when('08:00')),
    draft('animal-taken-in', 'animal:kit-2', kitten('Two', '2026-01-20'), when('08:00')),
    draft('chip-implanted', 'animal:kit-2', { code: box[3] ?? '', site: 'not-written', packScan: null }, when('09:00')),
  ]);
  const world = buildWorld(log.records);
  it.each([
    ['4101', box[0]],
    ['20 4102', box[1]],
    ['4102', 'ribbon.key-in.chip-fits-several'],
    ['4109', 'ribbon.key-in.chip-fits-none'],
    ['7777', 'ribbon.key-in.chip-fits-none'],
    ['101', 'ribbon.key-in.chip-fits-none'],
    ['900-000-000-204-109', box[3]],
    ['900000000777777', '900000000777777'],
    ['90000000020410I', 'chip.letter-inside'],
  ])('%s is %s', (text, expected) => {
    const read = chipOnPaper(world, cat, text);
    expect(read.ok ? read.value.code : read.why.say).toBe(expected);
    if (read.ok) expect(read.value.lot).toBe(expected === '900000000777777' ? null : LotId.parse('b1'));
  });

  it('stays flagged until the animal is scanned', () => {
    const implant = draft(
      'chip-implanted',
      'animal:kit-1',
      { code: box[0] ?? '', site: 'not-written', packScan: null },
      when('09:00'),
    );
    const raised = (drafts: Draft[], recordedAt: string): string[] => {
      const own = testLog();
      own.add([draft('animal-taken-in', 'animal:kit-1', kitten('One', '2026-01-20'), when('08:00'))]);
      own.add(drafts, 'ines', 'desk', recordedAt);
      return flagsIn(buildWorld(own.records), today).map(({ code }) => code);
    };
    const found = { raw: '', code: box[0] ?? '', class: 'iso' };
    const scan = { target: 'animal' as const, occasion: 'recheck' as const, found };
    expect(raised([implant], when('18:00'))).toContain('chip-not-scanned');
    expect(raised([implant], when('09:00'))).not.toContain('chip-not-scanned');
    expect(raised([implant, draft('chip-scanned', 'animal:kit-1', scan, when('12:00'))], when('18:00'))).not.toContain(
      'chip-not-scanned',
    );
  });
});

describe('who did it, and who wrote it down', () => {
  const dose = {
    schedule: null,
    product: 'pyrantel-50' as never,
    lot: null,
    volume_ul: null,
    route: 'by mouth',
    round,
  };
  const keyed = (lotText = '') => {
    const log = shelterLog(1);
    const plan = {
      on: today,
      sections: ['nursery' as never],
      treater: ines,
      holder: null,
      lines: [{ animal: cat, schedules: [] }],
    };
    log.add([draft('round-planned', 'round:paper', plan, when('08:00'))], 'sol');
    const drafts = [
      ...identifiedOnPaper(cat, [], round, when('10:00')),
      ...give(cat, { ...dose, lotText }, when('10:00')),
    ];
    log.add(doneBy(drafts, { by: ines, with: PersonId.parse('vera') }), 'sol', 'desk', when('18:00'));
    return { log, world: buildWorld(log.records) };
  };

  it('are both on the record (Verifies: SHEET-R7)', () => {
    const given = keyed().log.records.at(-1);
    expect(given).toMatchObject({ by: 'ines', with: 'vera', writtenBy: 'sol', kind: 'treatment-given' });
    const log = shelterLog(1);
    const own = doneBy(give(cat, dose, when('10:00')), { by: ines, with: null });
    const [typed] = log.add(own, 'ines', 'desk', when('18:00'));
    expect(typed).toMatchObject({ by: 'ines' });
    expect(typed).not.toHaveProperty('writtenBy');
    expect(typed).not.toHaveProperty('with');
  });

  it('raise no flag for each dose, and count for nobody who holds the animal now (Verifies: SHEET-R8)', () => {
    const { world } = keyed();
    expect(flagsIn(world, today).map(({ code }) => code)).not.toContain('not-identified');
    expect(roundView(world, round)?.stops.flatMap((stop) => stop.animals)[0]?.identified).toBeNull();
  });

  it('leave out what is not written, once for the round (Verifies: SHEET-R2)', () => {
    const codes = flagsIn(keyed().world, today).map(({ code }) => code);
    expect(codes.filter((code) => code === 'not-written-down')).toHaveLength(1);
    expect(codes).not.toContain('lot-unknown');
    expect(flagsIn(keyed('X9').world, today).map(({ code }) => code)).toContain('lot-unknown');
  });
});

it('what was weighed on the round does not change what stands on the paper (Verifies: SHEET-R2)', () => {
  const log = shelterLog(1);
  log.add(weighAnimal(cat, { grams: 700, entered: '700' }, when('08:00')));
  log.add(weighAnimal(cat, { grams: 900, entered: '900', round }, when('10:00')));
  const world = buildWorld(log.records);
  expect(world.animals.get(cat)?.weighings.at(-1)?.grams).toBe(900);
  expect(asPrinted(world, cat, round).animals.get(cat)?.weighings.at(-1)?.grams).toBe(700);
});

describe('what was weighed after the round was laid down (Verifies: SHEET-R23)', () => {
  /** Grams that the sheet would show if it was printed first, and if it was printed last. */
  const gramsOf = (drafts: readonly Draft[], recordedAt = when('09:00')): (number | undefined)[] => {
    const log = shelterLog(1);
    const plan = { on: today, sections: ['nursery' as never], treater: ines, holder: null, lines: [] };
    log.add(weighAnimal(cat, { grams: 700, entered: '700' }, when('07:00')));
    log.add([draft('round-planned', 'round:paper', plan, when('08:00'))], 'sol');
    log.add(drafts, 'sol', 'phone', recordedAt);
    const world = buildWorld(log.records);
    return [asPrinted, asPrintedLast].map((of) => of(world, cat, round).animals.get(cat)?.weighings.at(-1)?.grams);
  };
  const weighed = (own: RoundId | null, time: string): Draft[] =>
    weighAnimal(cat, { grams: 900, entered: '900', round: own }, when(time));

  it('leaves open which one was printed', () => {
    expect(gramsOf([])).toEqual([700, 700]);
    expect(gramsOf(weighed(null, '09:00'))).toEqual([700, 900]);
    expect(gramsOf(weighed(round, '09:00'))).toEqual([700, 900]);
    expect(gramsOf(weighed(RoundId.parse('other'), '09:00'))).toEqual([700, 900]);
    expect(gramsOf(weighed(null, '07:30'), when('12:00'))).toEqual([700, 900]);
  });
  it('but what was keyed in from the sheet itself was never printed on it', () => {
    const first = identifiedOnPaper(cat, [], round, when('10:00'));
    expect(gramsOf([...first, ...weighed(round, '10:00')], when('18:00'))).toEqual([700, 700]);
  });
});
