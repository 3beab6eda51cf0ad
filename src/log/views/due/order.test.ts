import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { shelterLog } from '../../../../test/support/shelter-log.js';
import { orderSchedule } from '../../../core/animal/vet-order.js';
import { PersonId } from '../../../core/ids.js';
import { said } from '../../../core/said.js';
import { noteObservation } from '../../commands/animal.js';
import { endOrder, type NewOrder, switchVariant, writeOrder } from '../../commands/order.js';
import { give, notGiven, planRound } from '../../commands/round.js';
import { prepareRound } from '../../prepare/prepare.js';
import { mayAppend } from '../../who-may.js';
import { roundView } from '../round/round.js';
import { applyToWorld, buildWorld, dueIn } from '../world.js';
import { ordersNow } from './due.js';

/** Orders as records, from the veterinarian's pen to the round. The shelter is in Chicago. */
const kit = animalId('kit-1');
const zone = 'America/Chicago';
const vera = { id: PersonId.parse('vera'), licence: 'Invented 1' };
const wanted: NewOrder = {
  name: 'Pyrantel, 3 days',
  treat: { is: 'product', product: 'pyrantel-50' as never },
  starts: day('2026-03-10'),
  timing: { is: 'times', times: ['08:30', '12:30'] },
  ends: { is: 'after-days', days: 3 },
};

function ordered(more: Partial<NewOrder> = {}) {
  const log = shelterLog(2, zone);
  const { shelter } = buildWorld(log.records);
  const drafts = writeOrder(shelter, vera, kit, { ...wanted, ...more }, at('2026-03-09', '15:00'));
  if (!drafts.ok) throw new Error(JSON.stringify(drafts.why));
  const [record] = log.add(drafts.value, 'vera');
  if (record === undefined) throw new Error('no record');
  const id = orderSchedule(record.id);
  const world = () => buildWorld(log.records);
  const animal = () => world().animals.get(kit) ?? ({} as never);
  const item = (on: string) => dueIn(world(), animal(), day(on)).find((one) => one.schedule === id);
  const now = (on: string, time: string) => ordersNow(animal(), world().shelter, at(on, time)).get(record.id);
  return { log, record, id, world, animal, item, now };
}

const dose = (schedule: string, dueAt: { on: string; at: string } | null) => ({
  schedule: schedule as never,
  product: 'pyrantel-50' as never,
  lot: 'pyr-1' as never,
  volume_ul: 120,
  route: 'by mouth',
  dueAt: dueAt as never,
});

describe('an order on record', () => {
  it('is written by a licence only, and for something that the signed documents have', () => {
    const { world } = ordered();
    const { shelter } = world();
    const sol = { ...vera, licence: '' };
    const say = (...args: Parameters<typeof writeOrder>) => {
      const answer = writeOrder(...args);
      return answer.ok ? 'ok' : answer.why.say;
    };
    const when = at('2026-03-09');
    expect(say(shelter, sol, kit, wanted, when)).toBe('due.order.needs-licence');
    expect(say(shelter, vera, kit, { ...wanted, timing: { is: 'hours', every: 4 } }, when)).toBe('due.order.malformed');
    expect(say(shelter, vera, kit, { ...wanted, treat: { is: 'product', product: 'nothing' as never } }, when)).toBe(
      'due.order.unknown',
    );
    expect(say(shelter, vera, kit, { ...wanted, treat: { is: 'schedule', schedule: 'nothing' as never } }, when)).toBe(
      'due.order.unknown',
    );
    expect(
      say(shelter, vera, kit, { ...wanted, treat: { is: 'schedule', schedule: 'roundworm' as never } }, when),
    ).toBe('ok');
    expect(say(shelter, vera, kit, { ...wanted, treat: { is: 'words', words: 'Wash.' } }, when)).toBe('ok');
    // Verifies: DOSE-R60, DOSE-R61
    const inName = { ...wanted, name: 'Pyrantel 10 mg/kg', amount: '', why: '' };
    expect(writeOrder(shelter, vera, kit, inName, when)).toEqual({
      ok: false,
      why: said('due.order.amount-elsewhere', { fields: { list: [said('due.order.field.name')] } }),
    });
    expect(say(shelter, vera, kit, { ...inName, amount: '10 mg/kg' }, when)).toBe('ok');
    const fluid = { ...wanted, amount: ' ', treat: { is: 'product' as const, product: 'saline-0-9' as never } };
    expect(say(shelter, vera, kit, fluid, when)).toBe('due.order.needs-amount');
    expect(say(shelter, vera, kit, { ...fluid, amount: '8 mL under the skin' }, when)).toBe('ok');
    for (const kind of ['order-written', 'order-ended', 'variant-switched'] as const) {
      expect(mayAppend('veterinarian', kind)).toBe(true);
      expect(mayAppend('medical', kind)).toBe(kind === 'order-ended');
      expect(mayAppend('supervisor', kind) || mayAppend('volunteer', kind) || mayAppend('caregiver', kind)).toBe(false);
    }
  });

  it('is due on its days, at the shelter’s times whatever the zone of the device, Verifies: PROT-R28', () => {
    const { item, now, record } = ordered();
    expect(item('2026-03-09')).toMatchObject({ status: 'not-yet', due: '2026-03-10', order: record.id });
    expect(item('2026-03-10')).toMatchObject({ status: 'due', products: ['pyrantel-50'], latest: '2026-03-12' });
    // 08:30 in Chicago in summer time is 13:30 UTC.
    expect(now('2026-03-10', '13:29')?.mayDo).toBeNull();
    expect(now('2026-03-10', '13:30')?.mayDo).toMatchObject({ on: '2026-03-10', at: '08:30' });
  });

  it('takes the item that was confirmed, Verifies: PROT-R29', () => {
    const { log, item, id, now } = ordered();
    log.add(give(kit, dose(id, { on: '2026-03-10', at: '08:30' }), at('2026-03-10', '16:19')), 'ines');
    expect(item('2026-03-10')?.times?.map((one) => one.state)).toEqual(['done', 'open']);
    expect(now('2026-03-10', '17:30')?.mayDo).toBeNull();
    expect(now('2026-03-10', '20:19')?.mayDo?.at).toBe('12:30');
  });

  it('keeps the reason of an omission and closes what passed, Verifies: PROT-R30', () => {
    const { log, item, id, now } = ordered();
    const body = { schedule: id, reason: 'animal-ill' as const, dueAt: { on: day('2026-03-10'), at: '08:30' } };
    log.add(notGiven(kit, body, at('2026-03-10', '13:40')), 'ines');
    expect(item('2026-03-10')?.times?.[0]).toMatchObject({ state: 'missed', why: { say: 'due.order.not-done' } });
    expect(now('2026-03-11', '14:00')?.times.map((one) => `${one.on} ${one.at} ${one.state}`)).toEqual([
      '2026-03-10 08:30 missed',
      '2026-03-10 12:30 missed',
      '2026-03-11 08:30 open',
      '2026-03-11 12:30 open',
    ]);
  });

  it('ends when told, also when the end came in first, and both stay on record, Verifies: PROT-R31', () => {
    const { log, record, item, animal } = ordered();
    log.add(endOrder(kit, record.id, day('2026-03-11'), 'Well again.', at('2026-03-08', '08:00')), 'vera');
    expect(item('2026-03-10')?.status).toBe('due');
    expect(item('2026-03-11')).toMatchObject({ status: 'complete', because: { say: 'due.order.ended' } });
    expect(animal().orders).toMatchObject([{ record: record.id, ended: { on: '2026-03-11' } }]);
  });

  it('in words is done by noting it under its name', () => {
    const { log, item, id } = ordered({ treat: { is: 'words', words: 'Wash the eyes.' } });
    expect(item('2026-03-10')).toMatchObject({ action: 'look', products: [] });
    const body = {
      code: id,
      state: 'present' as const,
      on: day('2026-03-10'),
      dueAt: { on: day('2026-03-10'), at: '08:30' },
    };
    log.add(noteObservation(kit, body, at('2026-03-10', '13:45')), 'ines');
    expect(item('2026-03-10')?.times?.map((one) => one.state)).toEqual(['done', 'open']);
  });

  it('is worked off on a round under its own name', () => {
    const { log, id, world } = ordered();
    const prepared = prepareRound(world(), ['nursery' as never], at('2026-03-10', '14:00'));
    const line = prepared.sections[0]?.animals.find(({ animal }) => animal.id === kit);
    expect(line?.due.map((one) => one.schedule)).toContain(id);
    const round = 'round-1' as never;
    const plan = {
      on: day('2026-03-10'),
      sections: ['nursery' as never],
      treater: 'ines' as never,
      holder: null,
      lines: [{ animal: kit, schedules: [id] }],
    };
    const planned = planRound(world().shelter, round, plan, at('2026-03-10', '14:00'));
    if (!planned.ok) throw new Error('not planned');
    log.add(planned.value, 'sol');
    const lines = () => roundView(world(), round)?.stops.flatMap((stop) => stop.animals.flatMap((one) => one.lines));
    expect(lines()).toMatchObject([{ name: 'Pyrantel, 3 days', action: 'give', state: 'open' }]);
    log.add(give(kit, { ...dose(id, { on: '2026-03-10', at: '08:30' }), round }, at('2026-03-10', '14:10')), 'ines');
    expect(lines()).toMatchObject([{ name: 'Pyrantel, 3 days', state: 'done' }]);
  });
});

describe('a variant switched on, Verifies: PROT-R32', () => {
  const when = at('2026-03-02');
  const young = (log: ReturnType<typeof shelterLog>, on: string) => {
    const world = buildWorld(log.records);
    const animal = world.animals.get(kit);
    if (animal === undefined) throw new Error('no kit');
    return dueIn(world, animal, day(on)).find((one) => one.schedule === 'core-vaccine');
  };
  function switched(...steps: (readonly [string | null, string | null])[]) {
    const log = shelterLog(1);
    for (const [variant, section] of steps) {
      const { shelter } = buildWorld(log.records);
      const drafts = switchVariant(
        shelter,
        vera,
        { variant, section: section as never, why: 'Outbreak next door.' },
        when,
      );
      if (!drafts.ok) throw new Error(JSON.stringify(drafts.why));
      log.add(drafts.value, 'vera');
    }
    return log;
  }

  it('counts in its section or the whole shelter, and is written on what is forecast', () => {
    // Born 20 January: 4 weeks on 17 February, 2 weeks on 3 February; here from 1 March, so both are past.
    expect(young(switched(), '2026-03-03')?.protocol).toEqual({ id: 'starter', version: '1' });
    for (const section of [null, 'nursery']) {
      expect(young(switched(['high-risk', section]), '2026-03-03')?.protocol).toMatchObject({ variant: 'high-risk' });
    }
    expect(young(switched(['high-risk', 'quarantine']), '2026-03-03')?.protocol).not.toHaveProperty('variant');
    expect(young(switched(['high-risk', null], [null, 'nursery']), '2026-03-03')?.protocol).not.toHaveProperty(
      'variant',
    );
    expect(young(switched(['high-risk', null], [null, null]), '2026-03-03')?.protocol).not.toHaveProperty('variant');
  });

  it('moves dates at once, also in a world that goes on', () => {
    const log = shelterLog(1);
    const before = buildWorld(log.records);
    const animal = before.animals.get(kit);
    if (animal === undefined) throw new Error('no kit');
    dueIn(before, animal, day('2026-03-03'));
    const { shelter } = before;
    const drafts = switchVariant(shelter, vera, { variant: 'high-risk', section: null, why: 'Outbreak.' }, when);
    const after = applyToWorld(before, log.add(drafts.ok ? drafts.value : [], 'vera'));
    const item = dueIn(after, after.animals.get(kit) ?? animal, day('2026-03-03')).find(
      (one) => one.schedule === 'core-vaccine',
    );
    expect(item?.protocol.variant).toBe('high-risk');
    expect(item?.trace.find((step) => step.rule === 'minimum-age')?.date).toBe('2026-02-03');
  });

  it('needs a licence and a signed variant', () => {
    const { shelter } = buildWorld(shelterLog(1).records);
    expect(
      switchVariant(shelter, { ...vera, licence: '' }, { variant: null, section: null, why: 'x' }, when),
    ).toMatchObject({ ok: false });
    expect(switchVariant(shelter, vera, { variant: 'nothing', section: null, why: 'x' }, when)).toMatchObject({
      why: { say: 'due.order.unknown' },
    });
  });
});
