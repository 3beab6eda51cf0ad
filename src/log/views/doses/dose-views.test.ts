import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../../test/support/documents.js';
import { at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { toConfirm } from '../../../core/dosing/before-signing.js';
import { AnimalId, LotId, PersonId, ProductId, SyringeId } from '../../../core/ids.js';
import { openGates } from '../../commands/gate.js';
import { signDocument } from '../../commands/signing.js';
import { drawUpsFor } from '../../prepare/draw-ups.js';
import { lotUse } from '../../stock/lots.js';
import { bloodLedger } from '../blood-tests/blood.js';
import { weighGroups } from '../round/weigh-groups.js';
import type { KnownPerson } from '../shelter.js';
import { buildWorld } from '../world.js';
import { doseFor, syringesAtHand } from './dose.js';
import { openedFor } from './opened.js';

const pip = AnimalId.parse('pip');
const now = at('2026-03-12', '12:00');
const today = day('2026-03-12');
const animalOf = (world: ReturnType<typeof buildWorld>) => {
  const animal = world.animals.get(pip);
  if (animal === undefined) throw new Error('no pip');
  return animal;
};
const productNamed = (id: string) => {
  const product = starterFormulary().products.find((one) => one.id === id);
  if (product === undefined) throw new Error(id);
  return product;
};
const vet: KnownPerson = {
  id: PersonId.parse('mara'),
  name: 'Mara',
  role: 'medical',
  licence: 'X-1',
  active: true,
  roles: [],
};

describe('the blood ledger (Verifies: TEST-R10)', () => {
  const drawn = (log: ReturnType<typeof ward>, days: number, volume_ul: number, usable: boolean) =>
    log.one(
      'sample-drawn',
      'animal:pip',
      { run: `run-${days}` as never, schedule: 'felv-test' as never, volume_ul, usable, sample: 'whole-blood' },
      new Date(Date.parse(now) - days * 86_400_000).toISOString(),
    );
  it('adds up failed draws, forgets those of more than 28 days, and counts the lighter of doubtful weights', () => {
    const log = ward();
    log.take('pip', '2026-01-01');
    log.one('animal-weighed', 'animal:pip', { grams: 500, entered: '500 g' }, at('2026-03-11'));
    drawn(log, 29, 1000, true);
    drawn(log, 10, 1000, false);
    drawn(log, 1, 300, true);
    const ledger = bloodLedger(buildWorld(log.records), animalOf(buildWorld(log.records)), now);
    expect(ledger.draws).toHaveLength(3);
    expect(ledger.allowance?.limits.map((limit) => limit.drawn_ul)).toEqual([300, 1300, 1300]);
    expect(ledger.allowance?.left_ul).toBe(1500);
    log.one('animal-weighed', 'animal:pip', { grams: 5000, entered: '5 kg', doubtful: true }, at('2026-03-12'));
    const world = buildWorld(log.records);
    expect(bloodLedger(world, animalOf(world), now)).toMatchObject({ grams: 500, allowance: { left_ul: 1500 } });
  });
  it('takes an ill animal to have less blood, while it is ill', () => {
    const log = ward();
    log.take('pip', '2026-01-01');
    log.one('animal-weighed', 'animal:pip', { grams: 1000, entered: '1 kg' }, at('2026-03-11'));
    const ill = { code: 'ill', state: 'present' as const, on: day('2026-03-11'), until: null };
    log.one('observation-noted', 'animal:pip', ill, at('2026-03-11'));
    const world = buildWorld(log.records);
    expect(bloodLedger(world, animalOf(world), now)).toMatchObject({ ill: true, allowance: { total_ul: 47_600 } });
    log.one('observation-noted', 'animal:pip', { ...ill, state: 'absent' }, at('2026-03-12'));
    const later = buildWorld(log.records);
    expect(bloodLedger(later, animalOf(later), now)).toMatchObject({ ill: false, allowance: { total_ul: 56_000 } });
  });
  it('has no allowance without a weight or without a rule', () => {
    const log = ward({ signed: false });
    log.take('pip', '2026-01-01');
    const world = buildWorld(log.records);
    expect(bloodLedger(world, animalOf(world), now).allowance).toBeNull();
  });
});

describe('syringes in stock (Verifies: DOSE-R34, DOSE-R28)', () => {
  const box = (log: ReturnType<typeof ward>, syringe: string, pieces: number) =>
    log.one(
      'lot-received',
      `lot:box-${syringe}`,
      { of: { is: 'syringe', syringe: SyringeId.parse(syringe) }, lotText: 'B', expires: null, pieces },
      at('2026-03-01'),
    );
  it('are the only ones offered once a box was entered', () => {
    const log = ward();
    expect(syringesAtHand(buildWorld(log.records).shelter).length).toBeGreaterThan(10);
    box(log, 'luer-3', 100);
    expect(syringesAtHand(buildWorld(log.records).shelter)).toEqual(['luer-3']);
    log.one('lot-counted', 'lot:box-luer-3', { pieces: 0 }, at('2026-03-02'));
    expect(syringesAtHand(buildWorld(log.records).shelter)).toEqual([]);
  });
  it('are used up one by one by what says its box, and what stays in them leaves the vial too (Verifies: LOG-R70)', () => {
    const log = ward();
    box(log, 'oral-1', 10);
    log.take('pip', '2026-01-01');
    const given = {
      schedule: null,
      product: ProductId.parse('pyrantel-50'),
      lot: LotId.parse('worm-a'),
      route: 'by mouth',
    };
    const syringe = SyringeId.parse('oral-1');
    const syringeLot = LotId.parse('box-oral-1');
    log.one('treatment-given', 'animal:pip', { ...given, volume_ul: 100, syringe, syringeLot }, at('2026-03-05'));
    log.one('treatment-given', 'animal:pip', { ...given, volume_ul: 100, syringe }, at('2026-03-07'));
    log.one('treatment-given', 'animal:pip', { ...given, volume_ul: 100, syringe: null }, at('2026-03-06'));
    const use = lotUse(buildWorld(log.records));
    expect(use.get(LotId.parse('box-oral-1'))).toMatchObject({ used: 1, left: 9 });
    expect(use.get(LotId.parse('worm-a'))).toMatchObject({ used: 3, used_ul: 100 + 70 + 100 + 70 + 100 });
  });
});

describe('a veterinarian’s word for one animal (Verifies: DOSE-R31)', () => {
  const word = {
    product: ProductId.parse('imidacloprid-100'),
    gates: ['below-label-age'],
    how: 'by-telephone' as const,
    reason: 'flea anaemia',
    until: today,
  };
  it('is written down with who, reason and last day, and opens the stop on that day', () => {
    const log = ward();
    log.take('pip', '2026-02-05');
    log.one('animal-weighed', 'animal:pip', { grams: 500, entered: '500 g' }, at('2026-03-12', '10:00'));
    const drafts = openGates(vet, pip, word, today, now);
    if (!drafts.ok) throw new Error(drafts.why.say);
    const closed = buildWorld(log.records);
    const [record] = log.add(drafts.value);
    const world = buildWorld(log.records);
    const dose = (from: typeof world, on: string) =>
      doseFor(from.shelter, animalOf(from), productNamed('imidacloprid-100'), on, day(on.slice(0, 10)), {
        schedule: null,
        opened: openedFor(from, pip),
      });
    expect(dose(closed, now)?.gates.map((gate) => gate.severity)).toContain('stop');
    expect(dose(world, now)?.stopped).toBe(false);
    expect(dose(world, at('2026-03-13', '08:00'))?.gates[0]).toMatchObject({
      code: 'below-label-age',
      severity: 'stop',
    });
    log.one('record-withdrawn', 'animal:pip', { reason: 'wrong animal' }, at('2026-03-12', '12:30'), record?.id);
    expect(openedFor(buildWorld(log.records), pip)).toEqual([]);
  });
  it.each([
    ['without a licence', { ...vet, licence: '' }, word, 'drawup.word.needs-licence'],
    ['without a reason', vet, { ...word, reason: ' ' }, 'drawup.word.needs-reason'],
    ['for a day that is over', vet, { ...word, until: day('2026-03-11') }, 'drawup.word.past'],
    ['for a year', vet, { ...word, until: day('2027-03-12') }, 'drawup.word.too-long'],
  ])('is not taken %s', (_, who, what, why) => {
    expect(openGates(who, pip, what, today, now)).toMatchObject({ ok: false, why: { say: why } });
  });
});

describe('signing a formulary (Verifies: DOSE-R33)', () => {
  const { shelter } = buildWorld(ward({ signed: false }).records);
  const { id, version } = starterFormulary();
  const what = { document: 'formulary' as const, id, version, on: today, statement: 'For a test' };
  it('waits until each figure from memory is confirmed by name, and keeps which', () => {
    const all = toConfirm(starterFormulary()).map((one) => one.key);
    expect(signDocument(shelter, vet, what, now)).toMatchObject({ ok: false, why: { say: 'dose.confirm-first' } });
    const almost = signDocument(shelter, vet, { ...what, confirmed: all.slice(1) }, now);
    expect(almost).toMatchObject({ ok: false, why: { say: 'dose.confirm-first', with: { count: 1 } } });
    const signed = signDocument(shelter, vet, { ...what, confirmed: all }, now);
    if (!signed.ok) throw new Error(signed.why.say);
    expect(signed.value[0]?.body).toMatchObject({ licence: 'X-1', confirmed: all });
  });
});

describe('draw-ups and litters', () => {
  it('one line for each thing to be given, in the order of the round, with its lot and syringe (Verifies: DOSE-R7)', () => {
    const log = ward();
    log.take('pip', '2026-01-20', { litter: { id: 'l1' as never, name: 'Tree litter' } });
    log.one('animal-weighed', 'animal:pip', { grams: 700, entered: '700 g' }, at('2026-03-12', '10:00'));
    const world = buildWorld(log.records);
    const lines = drawUpsFor(world, [{ animal: pip, schedules: ['roundworm' as never] }], now);
    expect(lines).toMatchObject([
      {
        schedule: 'roundworm',
        lot: { id: 'worm-a' },
        syringe: { id: 'oral-1' },
        dose: { total_ul: 140, stopped: false },
      },
    ]);
    expect(drawUpsFor(world, [{ animal: pip, schedules: [] }], now)).toEqual([]);
  });
  it('a litter is one group, the rest of its section another (Verifies: DOSE-R37)', () => {
    const log = ward();
    const litter = { id: 'l1' as never, name: 'Tree litter' };
    log.take('pip', '2026-01-20', { litter });
    log.take('oak', '2026-01-20', { litter });
    log.take('solo', '2025-01-20');
    const groups = weighGroups(buildWorld(log.records));
    expect(groups.map((group) => [group.litter, group.animals.length])).toEqual([
      ['Tree litter', 2],
      ['', 1],
    ]);
  });
});
