import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { orderSchedule } from '../../../core/animal/vet-order.js';
import { AnimalId, ProductId } from '../../../core/ids.js';
import { type NewOrder, writeOrder } from '../../commands/order.js';
import { flagsIn } from '../../flags/flags.js';
import { buildWorld, dueIn } from '../world.js';
import { doseFor } from './dose.js';
import { judgeOrder } from './order-judged.js';

/** A queen of 3.2 kg, and itraconazole, which the starter formulary does not give to pregnant queens. */
const on = '2026-03-12';
const una = AnimalId.parse('una');
const mara = { id: 'mara' as never, licence: 'INVENTED-1' };
const ringworm: NewOrder = {
  name: 'Itraconazole',
  treat: { is: 'product', product: ProductId.parse('itraconazole-10') },
  dose: { amount: '5', unit: 'mg-per-kg', per: 'time' },
  starts: day(on),
  timing: { is: 'days', every: 1 },
  ends: { is: 'after-days', days: 7 },
};

function queen() {
  const log = ward();
  log.take('una', '2024-01-10');
  log.one('animal-weighed', 'animal:una', { grams: 3200, entered: '3.2 kg' }, at(on, '07:00'));
  const note = (code: string, state: 'present' | 'absent', time: string): void => {
    const body = { code, state, on: day(on), until: null, note: '' };
    log.one('observation-noted', 'animal:una', body as never, at(on, time), undefined, { by: 'mara' });
  };
  const world = () => buildWorld(log.records);
  const animal = () => world().animals.get(una) ?? ({} as never);
  const order = (more: Partial<NewOrder> = {}) => {
    const drafts = writeOrder(world().shelter, mara, una, { ...ringworm, ...more }, at(on, '08:00'));
    if (!drafts.ok) throw new Error(JSON.stringify(drafts.why));
    const [record] = log.add(drafts.value, 'mara');
    if (record === undefined) throw new Error('no record');
    return orderSchedule(record.id);
  };
  const item = (schedule: string, when = on) =>
    dueIn(world(), animal(), day(when)).find((one) => one.schedule === schedule);
  const stops = (schedule: string | null, when = on) => {
    const product = world().shelter.formulary?.products.find(({ id }) => id === 'itraconazole-10');
    if (product === undefined) throw new Error('no product');
    const dose = doseFor(world().shelter, animal(), product, at(when, '09:00'), day(when), {
      schedule: schedule as never,
    });
    return (dose?.gates ?? [])
      .filter(({ code, severity }) => severity === 'stop' && code.startsWith('if-'))
      .map(({ code, asks }) => [code, asks ?? null]);
  };
  const give = (schedule: string, time: string): void => {
    const body = { schedule, product: 'itraconazole-10', lot: null, volume_ul: 1600, route: 'by mouth' };
    log.one('treatment-given', 'animal:una', body as never, at(on, time), undefined, { by: 'mara' });
  };
  const codes = () => flagsIn(world(), day(on)).map(({ code }) => code);
  return { log, note, world, animal, order, item, stops, give, codes };
}

describe('a condition is judged by one engine (Verifies: DOSE-R73)', () => {
  it('at the draw-up: what nobody knows is asked, and the answer settles it', () => {
    const { note, order, stops } = queen();
    const schedule = order();
    expect(stops(schedule)).toEqual([['if-pregnant', 'pregnant']]);
    note('pregnant', 'absent', '08:30');
    expect(stops(schedule)).toEqual([]);
    note('pregnant', 'present', '08:40');
    expect(stops(schedule)).toEqual([['if-pregnant', null]]);
  });

  it('at forecasting: a pregnancy that is recorded after the order holds it, until it is over', () => {
    const { note, order, item } = queen();
    note('pregnant', 'absent', '07:30');
    const schedule = order();
    expect(item(schedule)?.status).toBe('due');
    note('pregnant', 'present', '09:00');
    expect(item(schedule)).toMatchObject({ status: 'on-hold', hold: { code: 'if-pregnant', until: '2026-05-21' } });
    note('pregnant', 'absent', '10:00');
    expect(item(schedule)?.status).toBe('due');
  });

  it('at ordering: it is said, and opened with the order to a day', () => {
    const { note, order, world, animal, item, stops } = queen();
    note('pregnant', 'present', '07:30');
    const opens = [{ gate: 'if-pregnant' as const, reason: 'Ringworm all over.', until: day('2026-03-14') }];
    const schedule = order({ opens });
    const [placed] = animal().orders;
    if (placed === undefined) throw new Error('no order');
    const [judged] = judgeOrder(world().shelter, animal(), placed.terms, at(on, '09:00'), day(on));
    expect(judged?.label.map(({ code }) => code)).toEqual(['if-pregnant']);
    expect([item(schedule)?.status, stops(schedule), stops(null)]).toEqual(['due', [], [['if-pregnant', null]]]);
    expect([item(schedule, '2026-03-15')?.status, stops(schedule, '2026-03-15')]).toEqual([
      'on-hold',
      [['if-pregnant', null]],
    ]);
  });

  it('at recording: by what was known just before it, and not by what was seen since (Verifies: LOG-R190)', () => {
    const { note, order, give, codes } = queen();
    note('pregnant', 'absent', '07:30');
    const schedule = order();
    give(schedule, '08:10');
    note('pregnant', 'present', '09:00');
    expect(codes()).not.toContain('given-against-label');
    const other = queen();
    other.note('pregnant', 'present', '07:30');
    other.give(other.order(), '08:10');
    expect(other.codes()).toContain('given-against-label');
    const opened = queen();
    opened.note('pregnant', 'present', '07:30');
    const opens = [{ gate: 'if-pregnant' as const, reason: 'Ringworm all over.', until: day('2026-03-14') }];
    opened.give(opened.order({ opens }), '08:10');
    expect(opened.codes()).not.toContain('given-against-label');
  });
});

/** Fleas: selamectin is not given to ill cats by its leaflet, imidacloprid has no such line in the starter formulary. */
describe('a schedule with several products (Verifies: DOSE-R74)', () => {
  it('offers those that nothing stops, and waits only when something stops them all', () => {
    const { log, note, world, animal } = queen();
    note('fleas', 'present', '07:30');
    const flea = () => dueIn(world(), animal(), day(on)).find(({ schedule }) => schedule === 'flea');
    const all = flea()?.products ?? [];
    expect(all).toEqual(expect.arrayContaining(['selamectin-60', 'fipronil-100']));
    note('ill', 'present', '08:00');
    expect(flea()?.products).not.toContain('selamectin-60');
    expect(flea()?.products).toContain('imidacloprid-100');
    expect(flea()?.hold).toBeNull();
    const mites = () => dueIn(world(), animal(), day(on)).find(({ schedule }) => schedule === 'ear-mite');
    note('ear-mites', 'present', '08:10');
    expect(mites()).toMatchObject({ status: 'on-hold', hold: { code: 'if-ill' } });
    expect(log.records.length).toBeGreaterThan(0);
  });
});
