import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { readLineCode } from '../../log/plan/line-code.js';
import { daySheet } from './day-sheet.js';

/** Kitten 1 is to be wormed on the round, 2 is on it without all that is due, 3 is on hold, 4 has left; 5 is on no round. */
function sheet(more: (log: ReturnType<typeof roundLog>) => void = () => {}, made = at(roundDay, '13:40')) {
  const log = roundLog(
    { 'kit-1': ['roundworm'], 'kit-2': ['chip'], 'kit-3': ['roundworm'], 'kit-4': ['roundworm'] },
    5,
  );
  const hold = { schedules: 'all', code: 'ill', from: day(roundDay), until: null, note: 'Fever.' };
  log.one('hold-placed', 'animal:kit-3', hold as never, when('13:10'), undefined, { by: 'vera' });
  log.one('animal-left', 'animal:kit-4', { how: 'adopted', on: day(roundDay) }, when('13:20'), undefined, {
    by: 'sol',
  });
  more(log);
  const { world } = viewOf(log);
  return { world, paper: daySheet(world, made) };
}

describe('the sheet for the day everything dies (Verifies: SHEET-R70)', () => {
  it('has every line of the rounds of the day with a code that leads back to it', () => {
    const { world, paper } = sheet();
    expect(paper.on).toBe(roundDay);
    expect(paper.sheets).toHaveLength(1);
    const lines = paper.sheets.flatMap(({ sheet: one }) =>
      one.sections.flatMap(({ animals }) =>
        animals.flatMap(({ id, lines: own }) => own.map((line) => [id, line] as const)),
      ),
    );
    expect(lines.map(([id, { key }]) => `${id} ${key}`)).toContain('kit-1 roundworm');
    for (const [animal, { code, key }] of lines) {
      expect(readLineCode(code ?? '', world.shelter.rounds.values())).toMatchObject({
        ok: true,
        value: { animal, schedule: key },
      });
    }
  });

  it('leaves out nothing that is due: what is in no round stands by itself, once', () => {
    const { world, paper } = sheet();
    const of = (id: string) => paper.unplanned.find((one) => one.id === id)?.lines ?? [];
    expect(of('kit-5').length).toBeGreaterThan(2);
    expect(of('kit-1').length).toBe(of('kit-5').length - 1);
    expect(of('kit-4')).toEqual([]);
    expect(world.animals.get('kit-4' as never)?.left).not.toBeNull();
    for (const { lines } of paper.unplanned) expect(new Set(lines.map(({ what }) => what)).size).toBe(lines.length);
  });

  it('says how much, by the weight that is known, and nothing where none is', () => {
    const weigh = (log: ReturnType<typeof roundLog>) =>
      log.one('animal-weighed', 'animal:kit-5', { grams: 620, entered: '620 g' } as never, when('12:00'));
    const worm = (made: ReturnType<typeof sheet>) =>
      made.paper.unplanned.find(({ id }) => id === 'kit-5')?.lines.find(({ what }) => what.startsWith('Roundworm'));
    // 620 g at 10 mg per kg of 50 mg per mL: 0.124 mL, drawn to a mark.
    expect(worm(sheet(weigh))?.amount.replaceAll('\u00a0', ' ')).toMatch(/^0\.12 ?mL/);
    expect(worm(sheet())?.amount).not.toMatch(/\d\s?mL/);
  });

  it('says what waits and why, and what stops', () => {
    const { paper } = sheet((log) =>
      log.one(
        'observation-noted',
        'animal:kit-5',
        { code: 'bite', state: 'present', on: day(roundDay) } as never,
        when('13:15'),
      ),
    );
    const kit = paper.waits.find(({ id }) => id === 'kit-3');
    expect(kit?.what.some((one) => one.includes('Fever'))).toBe(true);
    expect(paper.unplanned.find(({ id }) => id === 'kit-3')).toBeUndefined();
    expect(paper.stops.map(({ who, why }) => `${who}: ${why}`).join('\n')).toMatch(/Kit 5: .*bit/);
  });

  it('has nothing of a round that is handed back, and no round of another day', () => {
    const { paper } = sheet((log) =>
      log.one('handed-back', 'round:round-1', { done: 1, notDone: 0, abnormal: 0 } as never, when('15:00')),
    );
    expect(paper.sheets).toEqual([]);
    expect(sheet(() => {}, at('2026-03-02', '09:00')).paper.sheets).toEqual([]);
  });
});
