import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { orderSchedule } from '../../../core/animal/vet-order.js';
import { AnimalId, PersonId, ProductId } from '../../../core/ids.js';
import { isToBeWeighedFirst, prepareRound, stopOf } from '../../prepare/prepare.js';
import { buildWorld, dueIn, inCare } from '../world.js';

const pip = AnimalId.parse('pip');

/** A kitten of ten weeks for which a product is ordered once a day, on 12 March 2026. */
function ordered(product: string, grams: number, weighed = '2026-03-12', amount = '') {
  const log = ward();
  log.take('pip', '2026-01-01');
  log.one('animal-weighed', 'animal:pip', { grams, entered: `${grams} g` }, at(weighed, '10:00'));
  const order = {
    name: 'Ordered',
    treat: { is: 'product' as const, product: ProductId.parse(product) },
    amount,
    starts: day('2026-03-12'),
    startsAt: null,
    timing: { is: 'days' as const, every: 1 },
    ends: { is: 'after-days' as const, days: 10 },
    leastHours: null,
    stopWhen: [],
    holdWhen: [],
    why: '',
    vet: PersonId.parse('mara'),
  };
  const record = log.one('order-written', 'animal:pip', { order }, at('2026-03-12', '08:00'), undefined, {
    by: 'mara',
  });
  const world = buildWorld(log.records);
  const now = at('2026-03-12', '12:00');
  const round = prepareRound(
    world,
    world.shelter.sections.map((one) => one.id),
    now,
  );
  const schedule = orderSchedule(record.id);
  const own = round.cart.products.find((one) => one.product.id === product);
  const stop = round.stopped.find((one) => one.schedule === schedule);
  return { world, now, round, schedule, own, stop };
}

describe('a dose that is stopped has no volume on the cart (Verifies: DOSE-R62)', () => {
  it('mirtazapine on 500 g is left out, and it is said why', () => {
    const { world, now, round, schedule, own, stop } = ordered('mirtazapine-ointment-20', 500);
    expect(own).toBeUndefined();
    expect(stop).toMatchObject({ animal: 'pip', onCart: false });
    expect(round.problems).toContainEqual(
      expect.objectContaining({ say: 'prepare.left-out', with: expect.objectContaining({ why: stop?.why }) }),
    );
    const animal = world.animals.get(pip);
    const item = animal && dueIn(world, animal, day('2026-03-12')).find((one) => one.schedule === schedule);
    if (animal === undefined || item === undefined) throw new Error('nothing is due');
    expect(stopOf(world, animal, item, now)).toEqual(stop);
    expect(stopOf(world, animal, { ...item, status: 'not-yet' }, now)).toBeNull();
  });
  it('a weight too old to dose on stops until the scale: the product is taken along without a volume', () => {
    const { own, stop } = ordered('doxycycline-10', 743, '2026-02-20');
    expect(own).toMatchObject({ doses: 1, volume_ul: null });
    expect(stop).toMatchObject({ onCart: true, why: { say: 'dose.gate.weight-stale' } });
  });
  it('an order in words behind a stop is left out too', () => {
    const { own, stop } = ordered('maropitant-10', 900, '2026-03-12', '1 mg per kg');
    expect([own, stop?.onCart]).toEqual([undefined, false]);
  });
  it('what nothing stops is counted as before', () => {
    const { own, stop } = ordered('doxycycline-10', 743);
    expect([own?.volume_ul, stop]).toEqual([370, undefined]);
  });
});

describe('who is weighed first (Verifies: CART-R3)', () => {
  it.each(['2026-02-20', '2026-03-12'])('weighed on %s: Today counts as Prepare does', (weighed) => {
    const { world, round, now } = ordered('doxycycline-10', 743, weighed);
    const counted = inCare(world).filter((animal) => isToBeWeighedFirst(world, animal, now, day('2026-03-12')));
    expect(counted.map((animal) => animal.id)).toEqual(round.weighFirst);
  });
});
