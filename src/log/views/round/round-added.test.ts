import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { shelterLog } from '../../../../test/support/shelter-log.js';
import { orderSchedule } from '../../../core/animal/vet-order.js';
import { PersonId } from '../../../core/ids.js';
import { endOrder, writeOrder } from '../../commands/order.js';
import { give, notGiven, planRound } from '../../commands/round.js';
import { addedInWords } from '../../plan/added.js';
import { prepareRound } from '../../prepare/prepare.js';
import { buildWorld } from '../world.js';
import { roundView } from './round.js';

const on = '2026-03-10';
const kit = animalId('kit-1');
const round = 'round-1' as never;

/** Everything that is due in the nursery is laid as a round at 13:00. */
function laid(lines?: { animal: never; schedules: never[] }[]) {
  const log = shelterLog(2, 'UTC');
  const world = () => buildWorld(log.records);
  const prepared = prepareRound(world(), ['nursery' as never], at(on, '13:00'));
  const plan = {
    on: day(on),
    sections: ['nursery' as never],
    treater: 'ines' as never,
    holder: null,
    lines:
      lines ??
      prepared.sections.flatMap(({ animals }) =>
        animals.map((one) => ({
          animal: one.animal.id as never,
          schedules: one.due.map(({ schedule }) => schedule as never),
        })),
      ),
  };
  const planned = planRound(world().shelter, round, plan, at(on, '13:00'));
  if (!planned.ok) throw new Error(JSON.stringify(planned.why));
  log.add(planned.value, 'sol');
  const order = (name = 'Pyrantel, 3 days') => {
    const vera = { id: PersonId.parse('vera'), licence: 'INVENTED-1' };
    const terms = {
      name,
      treat: { is: 'product', product: 'pyrantel-50' as never },
      starts: day(on),
      timing: { is: 'times', times: ['08:00', '20:00'] },
      ends: { is: 'after-days', days: 3 },
    } as const;
    const drafts = writeOrder(world().shelter, vera, kit, terms as never, at(on, '13:30'));
    if (!drafts.ok) throw new Error(JSON.stringify(drafts.why));
    const [record] = log.add(drafts.value, 'vera');
    return { record: record?.id as never, schedule: orderSchedule(record?.id as never) };
  };
  const view = () => roundView(world(), round) ?? ({} as never);
  const lineOf = (schedule: string) =>
    view()
      .stops.flatMap((stop) => stop.animals)
      .find((one) => one.animal.id === kit)
      ?.lines.find((line) => line.schedule === schedule);
  return { log, world, order, view, lineOf };
}

describe('what becomes due after a round was laid (Verifies: ROUND-R70)', () => {
  it('an order is on the round, in its changes, and open until it is given', () => {
    const { log, order, view, lineOf } = laid();
    const before = view().counts.open;
    expect(addedInWords(view())).toEqual([]);
    const { schedule } = order();
    expect(lineOf(schedule)).toMatchObject({ name: 'Pyrantel, 3 days', action: 'give', state: 'open', added: true });
    expect(view().counts.open).toBe(before + 1);
    expect(addedInWords(view())).toMatchObject([
      { say: 'round.added', with: { what: { list: ['Pyrantel, 3 days'] } } },
    ]);
    const dose = { schedule, product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'by mouth', round };
    log.add(give(kit, { ...dose, dueAt: { on, at: '08:00' } } as never, at(on, '14:00')), 'ines');
    expect(lineOf(schedule)).toMatchObject({ state: 'done' });
    expect(view().counts.open).toBe(before);
    expect(addedInWords(view())).toEqual([]);
  });

  it('or until the person says why not', () => {
    const { log, order, lineOf, view } = laid();
    const { schedule } = order();
    const why = { schedule, reason: 'animal-too-stressed', round, note: '', dueAt: { on, at: '08:00' } };
    log.add(notGiven(kit, why as never, at(on, '14:00')), 'ines');
    expect(lineOf(schedule)).toMatchObject({ state: 'not-done', reason: 'animal-too-stressed' });
    expect(addedInWords(view())).toEqual([]);
  });

  it('also for an animal that the plan has nothing for', () => {
    const { order, view, lineOf } = laid([]);
    expect(view().stops.flatMap((stop) => stop.animals)).toEqual([]);
    expect(lineOf(order().schedule)).toMatchObject({ state: 'open', added: true });
  });

  it('what was due when the round was laid and left out of it is not put back', () => {
    const { log, view } = laid([]);
    log.add(
      [
        {
          kind: 'animal-weighed',
          subject: `animal:${kit}`,
          body: { grams: 900, entered: '900 g' } as never,
          happenedAt: at(on, '13:40'),
        },
      ],
      'ines',
    );
    expect(
      view().stops.flatMap((stop) => stop.animals.flatMap(({ lines }) => lines.map((line) => line.schedule))),
    ).toEqual([]);
  });

  it('nothing is added to a round that was handed back', () => {
    const { log, order, view } = laid([]);
    log.one('round-begun', `round:${round}`, {} as never, at(on, '13:05'));
    log.one('handed-back', `round:${round}`, { done: 0, notDone: 0, abnormal: 0, note: '' } as never, at(on, '13:20'));
    order();
    expect(view().stops.flatMap((stop) => stop.animals)).toEqual([]);
  });
});

describe('an order that ended after a round was laid (Verifies: ROUND-R71)', () => {
  it('is not offered any more, and the line says so', () => {
    const first = laid();
    const { schedule, record } = first.order();
    const { log, world, view, lineOf } = first;
    const replan = planRound(
      world().shelter,
      round,
      {
        on: day(on),
        sections: ['nursery' as never],
        treater: 'ines' as never,
        holder: null,
        lines: [{ animal: kit, schedules: [schedule] }],
      },
      at(on, '13:45'),
    );
    if (!replan.ok) throw new Error(JSON.stringify(replan.why));
    log.add(replan.value, 'sol');
    expect(lineOf(schedule)).toMatchObject({ state: 'open' });
    log.add(endOrder(kit, record, day(on), 'Looked at again.', at(on, '13:50')), 'vera');
    expect(lineOf(schedule)).toMatchObject({ name: 'Pyrantel, 3 days', state: 'not-done', reason: 'order-ended' });
    expect(
      view()
        .stops.flatMap((stop) => stop.animals.flatMap(({ lines }) => lines))
        .filter((line) => line.state === 'open' && line.schedule === schedule),
    ).toEqual([]);
  });

  it('also when it was taken back', () => {
    const { log, order, lineOf, world } = laid();
    const { schedule, record } = order();
    const plan = {
      on: day(on),
      sections: ['nursery' as never],
      treater: 'ines' as never,
      holder: null,
      lines: [{ animal: kit, schedules: [schedule] }],
    };
    const again = planRound(world().shelter, round, plan, at(on, '13:45'));
    log.add(again.ok ? again.value : [], 'sol');
    log.one('record-withdrawn', `animal:${kit}`, { reason: 'other cat' }, at(on, '13:50'), record, { by: 'vera' });
    expect(lineOf(schedule)).toMatchObject({ name: 'Pyrantel, 3 days', state: 'not-done', reason: 'order-ended' });
  });
});
