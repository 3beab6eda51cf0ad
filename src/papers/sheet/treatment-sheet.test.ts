import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf } from '../../../test/support/round-log.js';
import { readLineCode } from '../../log/plan/line-code.js';
import { asksOf } from './asks.js';
import type { SheetLine } from './sheet-line.js';
import { treatmentSheet } from './treatment-sheet.js';

const made = at(roundDay, '13:40');
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

/** Each kind of line once; kitten 1 is to be wormed and tested, 2 chipped, 3 is held, 4 has left, 5 is to be weighed. */
function sheet(more: (log: ReturnType<typeof roundLog>) => void = () => {}) {
  const log = roundLog(
    {
      'kit-1': ['roundworm', 'felv-test'],
      'kit-2': ['chip'],
      'kit-3': ['roundworm'],
      'kit-4': ['roundworm'],
      'kit-5': ['weighing'],
    },
    5,
  );
  for (const kit of [1, 3, 4]) {
    log.one('animal-weighed', `animal:kit-${kit}`, { grams: 620, entered: '620 g' }, at(roundDay, '12:00'));
  }
  const hold = {
    schedules: 'all' as const,
    code: 'ill',
    from: day(roundDay),
    until: day('2026-03-09'),
    note: 'Fever.',
  };
  log.one('hold-placed', 'animal:kit-3', hold, at(roundDay, '13:10'), undefined, { by: 'vera' });
  log.one('animal-left', 'animal:kit-4', { how: 'adopted', on: day(roundDay) }, at(roundDay, '13:20'), undefined, {
    by: 'sol',
  });
  more(log);
  const { world, view } = viewOf(log);
  const whole = treatmentSheet(world, view, made);
  const animals = whole.sections.flatMap((section) => section.animals);
  const of = (animal: string) => animals.find(({ id }) => id === animal);
  const line = (animal: string, schedule: string): SheetLine => {
    const found = of(animal)?.lines.find(({ key }) => key === schedule);
    if (found === undefined) throw new Error(`${animal} has no line ${schedule}`);
    return found;
  };
  return { whole, world, of, line };
}

describe('what stands on the treatment sheet (Verifies: SHEET-R41)', () => {
  const { whole, world, of, line } = sheet();

  it('each planned line once, with a code of its own that leads back to it', () => {
    const lines = whole.sections.flatMap((section) =>
      section.animals.flatMap(({ id, lines: own }) => own.map(({ key, code }) => [id as string, key, code] as const)),
    );
    expect(lines.map(([animal, key]) => `${animal} ${key}`).sort()).toEqual(
      [
        'kit-1 felv-test',
        'kit-1 roundworm',
        'kit-5 weighing',
        'kit-2 chip',
        'kit-3 roundworm',
        'kit-4 roundworm',
      ].sort(),
    );
    for (const [animal, schedule, code] of lines) {
      const read = readLineCode(code ?? '', world.shelter.rounds.values());
      expect(read).toMatchObject({ ok: true, value: { animal, schedule } });
    }
  });

  it('in the head of every section the day, the section, the team, the clothes and when it was made', () => {
    const [section] = whole.sections;
    expect(plain(section?.head ?? '')).toMatch(/^Treatment sheet · .*1 Mar.* · .+ with .+ · .*made .*13:40/);
    expect(section?.head).toContain(section?.name ?? '?');
  });

  it('a dose with its volume, product and strength; a weighing without an amount', () => {
    const { cells, state } = line('kit-1', 'roundworm');
    expect(state).toBeNull();
    if (cells.is !== 'fill-in' || cells.amount === null) throw new Error('nothing to give');
    expect(cells.amount.known).toBe(true);
    expect(plain(cells.amount.text)).toMatch(/^0\.\d+ mL/);
    expect(plain(cells.amount.more.join(' '))).toContain('50 mg per mL');
    expect(line('kit-5', 'weighing').cells).toMatchObject({ is: 'fill-in', amount: null });
  });

  it('asks beside a test for times, each zone and the lots, beside a chip for both scans and the number', () => {
    const test = line('kit-1', 'felv-test').cells;
    if (test.is !== 'fill-in') throw new Error('the test is not to be done');
    expect([test.asks.time.length, test.asks.lot.length]).toEqual([1, 1]);
    const kit = world.shelter.formulary?.kits.find(({ tests }) => tests.includes('felv-antigen'));
    expect(test.asks.given.map((ask) => ask.split(':')[0])).toEqual(kit?.zones.map(({ name }) => name));
    const chip = asksOf(world.shelter, { action: 'chip', schedule: 'chip' as never });
    expect([chip.time.length, chip.given.length, chip.lot.length]).toEqual([0, 2, 1]);
    const worm = line('kit-1', 'roundworm').cells;
    expect(worm).toMatchObject({ is: 'fill-in', asks: { time: [], given: [], lot: [] } });
  });

  it('keeps the code of a line that waits, so that why can be keyed in, and closes one of an animal that left', () => {
    const held = line('kit-3', 'roundworm');
    expect([held.cells.is, held.state?.tone]).toEqual(['reason', 'stop']);
    expect(held.code).not.toBeNull();
    const gone = line('kit-4', 'roundworm');
    expect([gone.cells.is, gone.state?.text.startsWith('left on')]).toEqual(['closed', true]);
  });

  it('knows each animal by its marks and says what it weighed, never another number for its amount', () => {
    const who = of('kit-1')?.who;
    expect(who?.name).not.toBe('');
    expect(plain(who?.weight ?? '')).toMatch(/^620 g on .*1 Mar/);
    expect([who?.apart, who?.distrust]).toEqual([null, null]);
  });
});

it('what was recorded of an animal apart, and of a weight nobody trusts, stands at its head', () => {
  const { of, line } = sheet((log) => {
    log.one('animal-weighed', 'animal:kit-1', { grams: 640, entered: '640 g', doubtful: true }, at(roundDay, '13:00'));
  });
  expect(of('kit-1')?.who.weight).toContain('Ask: weight doubtful');
  const { cells } = line('kit-1', 'roundworm');
  if (cells.is !== 'fill-in' || cells.amount === null) throw new Error('nothing to give');
  expect(cells.amount.text).toBe('not as it stands: ask');
  expect(cells.amount.text).not.toMatch(/\d/);
});
