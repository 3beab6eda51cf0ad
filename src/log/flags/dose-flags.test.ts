import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { orderSchedule } from '../../core/animal/vet-order.js';
import { writeOrder } from '../commands/order.js';
import type { BodyInput } from '../kinds/index.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const on = '2026-03-10';

/** Pip, seven weeks old and a grown queen Una, both weighed on the day. */
function withCats(): Log {
  const log = ward();
  log.take('pip', '2026-01-20');
  log.take('una', '2024-01-20', { sex: 'female', kennel: '2', arrivedOn: day('2026-03-01') });
  log.one('animal-weighed', 'animal:pip', { grams: 437, entered: '437 g' }, at(on, '08:00'));
  log.one('animal-weighed', 'animal:una', { grams: 3500, entered: '3500 g' }, at(on, '08:00'));
  return log;
}

const vaccine = {
  schedule: 'core-vaccine',
  product: 'core-vaccine-live-1ml',
  volume_ul: 1000,
  route: 'under the skin',
};
function given(log: Log, cat: string, more: object, time = '10:00', by = 'ines') {
  const body = { lot: null, planned_ul: null, ...more } as unknown as BodyInput<'treatment-given'>;
  return log.one('treatment-given', `animal:${cat}`, body, at(on, time), undefined, { by });
}
function noted(log: Log, code: string, time: string, more: object = {}) {
  const body = { code, state: 'present', on: day(on), ...more } as BodyInput<'observation-noted'>;
  return log.one('observation-noted', 'animal:una', body, at(on, time), undefined, { by: 'mara' });
}
const flags = (log: Log) =>
  flagsIn(buildWorld(log.records), day(on)).filter(({ code }) => /^given-|^outside|^other-/.test(code));
const codes = (log: Log): string[] => flags(log).map(({ code }) => code);

describe('a dose is judged by what stood when it happened (Verifies: LOG-R120)', () => {
  it('against a hold that a phone without the network did not know', () => {
    const log = withCats();
    given(log, 'una', vaccine, '20:53');
    expect(codes(log)).toEqual([]);
    const hold = { schedules: 'all' as const, code: 'veterinarian', from: day(on), until: null, note: 'Surgery.' };
    log.one('hold-placed', 'animal:una', hold, at(on, '20:52'), undefined, { by: 'mara', device: 'desk-1' });
    const [flag, ...more] = flags(log);
    expect(more).toEqual([]);
    expect(flag).toMatchObject({ code: 'given-while-held', severity: 'stop', for: ['supervisor', 'medical'] });
    expect(flag?.why.with?.reason).toEqual({ list: [{ say: 'due.hold.placed', with: { what: 'Surgery' } }] });
  });

  it('by settled times: a hold placed or lifted on the other side of it changes nothing', () => {
    const log = withCats();
    const hold = { schedules: ['core-vaccine' as never], code: 'ill', from: day(on), until: null };
    const placed = log.one('hold-placed', 'animal:una', hold, at(on, '09:00'), undefined, { by: 'mara' });
    log.one('hold-lifted', 'animal:una', { hold: placed.id }, at(on, '09:30'), undefined, { by: 'mara' });
    given(log, 'una', vaccine);
    log.one('hold-placed', 'animal:una', hold, at(on, '10:01'), undefined, { by: 'mara' });
    expect(codes(log)).toEqual([]);
  });

  it.each([
    // What the product itself says of it is told, too: an order goes by no schedule.
    ['pregnant', ['given-against', 'given-against-label']],
    ['fever', ['given-against']],
  ])('against what the protocol waits for: %s', (code, told) => {
    const log = withCats();
    noted(log, code, '09:00');
    given(log, 'una', vaccine);
    expect(codes(log).sort()).toEqual(told);
    for (const { severity } of flags(log)) expect(severity).toBe('stop');
    // Under no schedule, the class of the product says what it is.
    const other = withCats();
    noted(other, code, '09:00');
    given(other, 'una', { ...vaccine, schedule: null });
    expect(codes(other).sort()).toEqual(told);
  });

  it('also where what stood was taken back or put right afterwards', () => {
    const log = withCats();
    const seen = noted(log, 'pregnant', '09:00');
    given(log, 'una', vaccine);
    log.one('record-withdrawn', 'animal:una', { reason: 'slip' } as never, at(on, '11:00'), seen.id);
    expect(codes(log)).toContain('given-against');
    const late = withCats();
    const absent = noted(late, 'fever', '09:00', { state: 'absent' });
    given(late, 'una', vaccine);
    expect(codes(late)).toEqual([]);
    const put = { code: 'fever', state: 'present' as const, on: day(on) };
    late.one('observation-noted', 'animal:una', put, at(on, '09:00'), absent.id, { recordedAt: at(on, '12:00') });
    expect(codes(late)).toEqual(['given-against']);
  });

  it('against an order that was ended, and one that was written for another animal', () => {
    const log = withCats();
    const { shelter } = buildWorld(log.records);
    const mara = shelter.people.find(({ id }) => id === 'mara');
    if (mara === undefined) throw new Error('no Mara');
    const order = {
      name: 'Worms',
      treat: { is: 'product' as const, product: 'pyrantel-50' as never },
      starts: day(on),
      timing: { is: 'times' as const, times: ['08:00', '20:00'] },
      ends: { is: 'after-days' as const, days: 3 },
    };
    const written = writeOrder(shelter, { ...mara, licence: 'INVENTED-1' }, animalId('una'), order, at(on, '07:00'));
    if (!written.ok) throw new Error(written.why.say);
    const [record] = log.add(written.value, 'mara');
    if (record === undefined) throw new Error('no order');
    const dose = { schedule: orderSchedule(record.id), product: 'pyrantel-50', volume_ul: 700, route: 'by mouth' };
    const first = { on: day(on), at: '08:00' };
    given(log, 'una', { ...dose, dueAt: first }, '08:05');
    expect(codes(log)).toEqual([]);
    given(log, 'pip', { ...dose, volume_ul: 87, dueAt: first }, '08:10');
    expect(flags(log)).toMatchObject([{ code: 'given-not-ordered', animal: 'pip', severity: 'stop' }]);
    const ended = { order: record.id, on: day(on), why: 'Enough.' };
    log.one('order-ended', 'animal:una', ended, at(on, '19:00'), undefined, { by: 'mara' });
    given(log, 'una', { ...dose, dueAt: { on: day(on), at: '20:00' } }, '19:59');
    expect(codes(log)).toContain('given-order-over');
  });

  it.each([
    // 10 mg per kg of 2 kg, of 50 mg per mL: 0.4 mL. The product goes from 5 to 22 mg per kg.
    ['10', false, 400, []],
    ['10', false, 590, []],
    ['10', false, 600, ['given-not-as-ordered']],
    ['20', false, 400, ['given-not-as-ordered']],
    ['90', true, 3600, []],
    ['90', false, 3600, ['outside-limits']],
    ['90', true, 800, ['given-not-as-ordered']],
  ])(
    'against the figure of its order: %s mg per kg (meant: %s) and %i mcL given (Verifies: LOG-R188)',
    (amount, meant, volume_ul, wanted) => {
      const log = withCats();
      log.one('animal-weighed', 'animal:una', { grams: 2000, entered: '2000 g' }, at(on, '06:00'));
      const { shelter } = buildWorld(log.records);
      const mara = shelter.people.find(({ id }) => id === 'mara');
      if (mara === undefined) throw new Error('no Mara');
      const order = {
        name: 'Worms',
        treat: { is: 'product' as const, product: 'pyrantel-50' as never },
        dose: { amount, unit: 'mg-per-kg' as const, per: 'time' as const },
        meant,
        starts: day(on),
        timing: { is: 'times' as const, times: ['08:00', '20:00'] },
        ends: { is: 'after-days' as const, days: 3 },
      };
      const written = writeOrder(shelter, { ...mara, licence: 'INVENTED-1' }, animalId('una'), order, at(on, '07:00'));
      if (!written.ok) throw new Error(written.why.say);
      const [record] = log.add(written.value, 'mara');
      if (record === undefined) throw new Error('no order');
      const dose = { schedule: orderSchedule(record.id), product: 'pyrantel-50', volume_ul, route: 'by mouth' };
      given(log, 'una', { ...dose, dueAt: { on: day(on), at: '08:00' } }, '08:05');
      expect(codes(log).filter((code) => code === 'given-not-as-ordered' || code === 'outside-limits')).toEqual(wanted);
    },
  );

  it.each([
    ['another way than the formulary has', { ...vaccine, route: 'into a vein' }, 'given-other-way'],
    [
      'a product for dogs',
      { schedule: null, product: 'selamectin-120-dog', route: 'on the skin' },
      'given-not-for-cats',
    ],
    ['in no formulary', { schedule: null, product: 'unheard-of', volume_ul: 100, route: 'by mouth' }, 'given-unlisted'],
    [
      'left to the medical team',
      {
        schedule: null,
        product: 'saline-0-9',
        volume_ul: 90_000,
        planned_ul: 90_000,
        places: 3,
        route: 'under the skin',
      },
      'given-not-allowed',
    ],
    [
      'under the age of its label',
      { schedule: 'flea', product: 'fipronil-100', route: 'on the skin' },
      'given-under-label',
    ],
  ])('%s', (_, dose, code) => {
    const log = withCats();
    given(log, code === 'given-under-label' ? 'pip' : 'una', { volume_ul: null, ...dose });
    expect(codes(log)).toContain(code);
    expect(flags(log).find((one) => one.code === code)?.severity).toBe('stop');
  });

  it('is silent where all is well, where nothing went in, and for what the medical team gives itself', () => {
    const log = withCats();
    given(log, 'una', vaccine);
    noted(log, 'pregnant', '10:30');
    given(log, 'una', { ...vaccine, outcome: 'not-taken' }, '11:00');
    const saline = { schedule: null, product: 'saline-0-9', volume_ul: 60_000, route: 'under the skin' };
    given(log, 'una', saline, '12:00', 'mara');
    expect(codes(log)).toEqual([]);
  });
});

describe('the record judges how much was given (Verifies: DOSE-R65)', () => {
  const worms = { schedule: 'roundworm', product: 'pyrantel-50', route: 'by mouth' };
  const tablet = { schedule: null, product: 'praziquantel-tablet-23', volume_ul: null, route: 'by mouth' };
  /** Pip with no weight on record. */
  function unweighed(): Log {
    const log = ward();
    log.take('pip', '2026-01-20');
    return log;
  }
  const onUna = (pieces: string): string[] => {
    const log = withCats();
    given(log, 'una', { ...tablet, pieces });
    return codes(log);
  };

  it.each(['1', '1.0'])('%s tablet is what the table has for 3500 g', (pieces) => expect(onUna(pieces)).toEqual([]));

  it.each(['50', '1000', '1 1/2', '1/2', '0', '0.5', '2'])('%s tablets are not', (pieces) => {
    const log = withCats();
    given(log, 'una', { ...tablet, pieces });
    expect(flags(log)).toMatchObject([{ code: 'outside-limits', severity: 'stop' }]);
  });

  it.each(['abc', '1,5', '-1', '1e3', '1/0', 'one'])('“%s” is no number of tablets', (pieces) =>
    expect(onUna(pieces)).toEqual(['given-amount-unread']),
  );

  it('pieces of what is measured are no amount', () => {
    const log = withCats();
    given(log, 'pip', { ...worms, volume_ul: null, pieces: '2' });
    expect(codes(log)).toEqual(['given-amount-unread']);
  });

  it('no amount at all is asked for', () => {
    const log = withCats();
    given(log, 'pip', { ...worms, volume_ul: null });
    expect(codes(log)).toEqual(['given-no-amount']);
  });

  it('what a dose says of the weight and the plan does not judge it', () => {
    const log = unweighed();
    given(log, 'pip', { ...worms, grams: 20_000, volume_ul: 8000, planned_ul: 8000 });
    expect(codes(log).sort()).toEqual(['given-no-weight', 'outside-limits']);
    expect(flags(log).every(({ severity }) => severity === 'stop')).toBe(true);
  });

  it('without a weight only what no kitten of that age could get is outside', () => {
    const log = unweighed();
    given(log, 'pip', { ...worms, grams: 437, volume_ul: 87, planned_ul: 87 });
    given(log, 'pip', { ...tablet, pieces: '1/2' }, '10:05');
    expect(codes(log)).toEqual(['given-no-weight', 'given-no-weight']);
    given(log, 'pip', { ...tablet, pieces: '5' }, '10:10');
    expect(codes(log).filter((code) => code === 'outside-limits')).toHaveLength(1);
  });

  it('asks for no weight where none is needed', () => {
    const log = unweighed();
    given(log, 'pip', vaccine);
    expect(codes(log)).toEqual([]);
  });
});

describe('limits are those of the formulary and of the weight on record (Verifies: DOSE-R64)', () => {
  const flea = { schedule: 'flea', product: 'imidacloprid-100', volume_ul: 400, route: 'on the skin' };
  const worms = { schedule: 'roundworm', product: 'pyrantel-50', route: 'by mouth' };
  it.each([
    ['the plan of the phone says the same', { ...flea, planned_ul: 400 }],
    ['the dose says a weight of its own', { ...flea, planned_ul: 400, grams: 4000 }],
    ['nothing was planned', flea],
    ['five times the most', { ...worms, volume_ul: 874, planned_ul: 874 }],
    ['ten vaccines at once', { ...vaccine, volume_ul: 10_000, planned_ul: 10_000 }],
  ])('%s', (_, dose) => {
    const log = withCats();
    given(log, 'pip', dose);
    expect(flags(log).filter(({ code }) => code === 'outside-limits')).toMatchObject([{ severity: 'stop' }]);
  });

  it('stands beside the flag of another amount than was planned', () => {
    const log = withCats();
    given(log, 'pip', { ...worms, volume_ul: 874, planned_ul: 87 });
    expect(codes(log).sort()).toEqual(['other-amount', 'outside-limits']);
  });

  it('counts the places that a planned volume went into', () => {
    const saline = { schedule: null, product: 'saline-0-9', volume_ul: 90_000, planned_ul: 90_000 };
    const inPlaces = (places: number): string[] => {
      const log = withCats();
      given(log, 'una', { ...saline, route: 'under the skin', places }, '10:00', 'mara');
      return codes(log);
    };
    expect([inPlaces(1), inPlaces(3)]).toEqual([['outside-limits'], []]);
  });

  it('takes the weight of the time, not one that came later', () => {
    const log = withCats();
    given(log, 'pip', { ...worms, volume_ul: 87, planned_ul: 87 });
    log.one('animal-weighed', 'animal:pip', { grams: 4000, entered: '4000 g' }, at(on, '12:00'));
    expect(codes(log)).not.toContain('outside-limits');
  });
});
