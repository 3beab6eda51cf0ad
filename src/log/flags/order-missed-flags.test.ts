import { expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { orderSchedule } from '../../core/animal/vet-order.js';
import { writeOrder } from '../commands/order.js';
import { buildWorld, dueIn } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const pip = animalId('pip');

/** Twice a day for three days from 10 March, for Pip. */
function ordered(log: Log, starts = '2026-03-10') {
  const { shelter } = buildWorld(log.records);
  const mara = shelter.people.find(({ id }) => id === 'mara');
  if (mara === undefined) throw new Error('no Mara');
  const written = writeOrder(
    shelter,
    { ...mara, licence: 'INVENTED-1' },
    pip,
    {
      name: 'Worms',
      treat: { is: 'product', product: 'pyrantel-50' as never },
      starts: day(starts),
      timing: { is: 'times', times: ['08:00', '20:00'] },
      ends: { is: 'after-days', days: 3 },
    },
    at(starts, '07:00'),
  );
  if (!written.ok) throw new Error(written.why.say);
  const [record] = log.add(written.value, 'mara');
  if (record === undefined) throw new Error('no order');
  return record;
}

function stands(log: Log, order: { readonly id: string }, on: string) {
  const world = buildWorld(log.records);
  const animal = world.animals.get(pip);
  if (animal === undefined) throw new Error('no Pip');
  return {
    item: dueIn(world, animal, day(on)).find((one) => one.schedule === orderSchedule(order.id as never)),
    flag: flagsIn(world, day(on)).find(({ code }) => code === 'order-missed'),
  };
}

function withOrder() {
  const log = ward();
  log.take('pip', '2026-01-20');
  return { log, order: ordered(log) };
}

it('an order of which doses were missed is not complete: it stays due, and the medical team is told how many (Verifies: LOG-R121)', () => {
  const { log, order } = withOrder();
  expect(stands(log, order, '2026-03-12').flag).toBeUndefined();
  const { item, flag } = stands(log, order, '2026-03-14');
  expect(item).toMatchObject({ status: 'ended-missed', due: '2026-03-12', hold: null });
  expect(item?.because).toMatchObject({ say: 'due.order.ended-missed', with: { count: 0, missed: 6 } });
  expect(flag).toMatchObject({ severity: 'stop', state: 'open', for: ['medical', 'supervisor'], about: order.id });
  expect(flag?.why.with).toMatchObject({ missed: 6, count: 0 });
});

it('only the medical team’s answer closes the flag, and the line stays until a veterinarian ends or renews the order (Verifies: LOG-R121)', () => {
  const { log, order } = withOrder();
  const key = stands(log, order, '2026-03-14').flag?.key ?? '';
  const answer = (by: string) =>
    log.one(
      'flag-answered',
      `flag:${key}`,
      { flag: key, answer: 'done', note: 'Seen.' },
      at('2026-03-14', '09:00'),
      undefined,
      { by },
    );
  answer('ines');
  expect(stands(log, order, '2026-03-14').flag?.state).toBe('taken');
  answer('mara');
  expect(stands(log, order, '2026-03-14')).toMatchObject({
    flag: { state: 'answered' },
    item: { status: 'ended-missed' },
  });
  const ended = { order: order.id, on: day('2026-03-14'), why: 'It is well.' };
  log.one('order-ended', 'animal:pip', ended, at('2026-03-14', '10:00'), undefined, { by: 'mara' });
  expect(stands(log, order, '2026-03-14')).toMatchObject({ flag: undefined, item: { status: 'complete' } });

  const renewed = withOrder();
  ordered(renewed.log, '2026-03-14');
  expect(stands(renewed.log, renewed.order, '2026-03-14')).toMatchObject({
    flag: undefined,
    item: { status: 'complete' },
  });
});

it('is told also after the animal has left (Verifies: LOG-R121)', () => {
  const { log, order } = withOrder();
  const gone = { on: day('2026-03-14'), how: 'adopted', word: null };
  log.one('animal-left', 'animal:pip', gone as never, at('2026-03-14', '10:00'), undefined, { by: 'mara' });
  expect(stands(log, order, '2026-03-20').flag?.why.with).toMatchObject({ missed: 6 });
});
