import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../test/support/log.js';
import { shelterLog, shelterPeople, starterFormulary, starterProtocol } from '../../test/support/shelter-log.js';
import { orderSchedule, type PlacedOrder } from '../core/animal/vet-order.js';
import { admission } from './admit.js';
import { countersignOrder, type NewOrder, writeOrder } from './commands/order.js';
import { flagsIn } from './flags/flags.js';
import { drawUpsFor } from './prepare/draw-ups.js';
import { prepareRound } from './prepare/prepare.js';
import { signersOf } from './private-side.js';
import { type Draft, draft, type LogRecord } from './record.js';
import type { Person } from './views/shelter.js';
import { buildWorld, dueIn } from './views/world.js';

const kit = animalId('kit-1');
const today = day('2026-03-02');
const noon = at('2026-03-02', '12:00');
const wash: NewOrder = {
  name: 'Wash the eyes',
  treat: { is: 'words', words: 'Wash the eyes with saline' },
  starts: today,
  timing: { is: 'days', every: 1 },
  ends: { is: 'after-days', days: 3 },
};
const heard = { how: 'telephone', readBack: true } as const;

/** The invented shelter: Ines volunteers, Sol is at the desk, Vera is the veterinarian, Cara fosters. */
function shelter() {
  const log = shelterLog(1);
  const cara = { person: 'cara', role: 'caregiver' } as const;
  log.add([draft('person-described', 'person:cara', cara as never, at('2026-03-01', '08:00'))], 'sol');
  const world = () => buildWorld(log.records);
  const person = (id: string): Person => {
    const found = world().shelter.people.find((one) => one.id === id);
    if (found === undefined) throw new Error(id);
    return found;
  };
  const ordered = (told: Parameters<typeof writeOrder>[5] = heard): Draft[] => {
    const drafts = writeOrder(world().shelter, { ...person('vera'), licence: 'Invented 1' }, kit, wash, noon, told);
    if (!drafts.ok) throw new Error(drafts.why.say);
    return drafts.value;
  };
  const order = (): PlacedOrder => {
    const [found] = world().animals.get(kit)?.orders ?? [];
    if (found === undefined) throw new Error('no order');
    return found;
  };
  const flags = () => flagsIn(world(), today).filter(({ code }) => code.startsWith('order-'));
  const admit = async (record: unknown, kept: readonly LogRecord[] = []) => {
    const there = [...log.records, ...kept];
    const one = await admission(world().shelter, signersOf(shelterPeople), [record], async (ids) =>
      there.filter(({ id }) => ids.includes(id)),
    );
    const answer = one(record);
    return answer.ok ? 'in' : answer.code;
  };
  /** What a person at a device would send, without its being kept. */
  const sent = (drafts: readonly Draft[], by: string, more: object = {}): LogRecord => {
    const [record] = log.add(drafts, by);
    log.records.pop();
    return { ...record, ...more } as LogRecord;
  };
  return { log, world, person, ordered, order, flags, admit, sent };
}

describe('an order told by telephone (Verifies: LOG-R76)', () => {
  it('is the veterinarian’s, is due, and says who wrote it down and that it is not countersigned', async () => {
    const { log, world, ordered, order, flags, admit, sent } = shelter();
    const record = sent(ordered(), 'sol');
    expect(record).toMatchObject({ by: 'vera', writtenBy: 'sol', body: { told: heard } });
    expect(await admit(record)).toBe('in');
    log.records.push(record);
    expect(order().written).toEqual({
      by: 'vera',
      writer: 'sol',
      told: { readBack: true, at: record.happenedAt, zone: record.zone },
      answered: null,
    });
    const animal = world().animals.get(kit);
    const items = animal === undefined ? [] : dueIn(world(), animal, today);
    const item = items.find(({ schedule }) => schedule.startsWith('order'));
    expect(item?.status).toBe('due');
    expect(item?.because.say).toBe('due.order.lapses');
    expect(flags()).toMatchObject([
      { code: 'order-to-countersign', severity: 'attention', for: ['medical'], by: 'vera', writtenBy: 'sol' },
    ]);
  });

  it('that was not read back is a stop', () => {
    const { log, world, ordered, flags } = shelter();
    expect(() => ordered({ how: 'telephone', readBack: false })).toThrow('due.order.needs-read-back');
    log.add(
      ordered().map(
        (draft) => ({ ...draft, body: { ...draft.body, told: { how: 'telephone', readBack: false } } }) as Draft,
      ),
      'sol',
    );
    expect(flags()).toMatchObject([{ code: 'order-to-countersign', severity: 'stop' }]);
    // Nothing is drawn up for it before the veterinarian has countersigned.
    const animal = world().animals.get(kit);
    const item = dueIn(world(), animal as never, today).find(({ schedule }) => schedule.startsWith('order'));
    expect(item).toMatchObject({ status: 'on-hold', hold: { code: 'order-by-another' } });
  });

  it('is planned until it has lapsed, and waits in sight from then on (Verifies: LOG-R220)', () => {
    const { log, world, ordered, order } = shelter();
    log.add(ordered(), 'sol');
    const name = orderSchedule(order().record);
    const planned = (on: string, time: string) => {
      const [one] = prepareRound(world(), ['nursery' as never], at(on, time)).sections.flatMap(
        ({ animals }) => animals,
      );
      return {
        due: one?.due.some(({ schedule }) => schedule === name),
        waiting: one?.waiting.some(({ schedule, hold }) => schedule === name && hold?.code === 'order-lapsed'),
      };
    };
    expect(planned('2026-03-03', '11:59')).toEqual({ due: true, waiting: false });
    expect(planned('2026-03-03', '12:00')).toEqual({ due: false, waiting: true });
    expect(planned('2026-03-04', '09:00')).toEqual({ due: false, waiting: true });
  });

  it('is drawn up until it has lapsed, and its flag says until when (Verifies: LOG-R220)', () => {
    const { log, world, person, flags } = shelter();
    log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620 g' }, at('2026-03-02', '11:00'));
    const worm = { ...wash, treat: { is: 'product' as const, product: 'pyrantel-50' as never } };
    const vet = { ...person('vera'), licence: 'Invented 1' };
    const drafts = writeOrder(world().shelter, vet, kit, worm, noon, heard);
    if (!drafts.ok) throw new Error(drafts.why.say);
    log.add(drafts.value, 'sol');
    const [order] = world().animals.get(kit)?.orders ?? [];
    const schedules = order === undefined ? [] : [orderSchedule(order.record)];
    const drawn = (time: string) => drawUpsFor(world(), [{ animal: kit, schedules }], at('2026-03-03', time)).length;
    expect([drawn('11:59'), drawn('12:00')]).toEqual([1, 0]);
    const until = { instant: '2026-03-03T12:00:00.000Z' };
    expect(flags()[0]?.why).toMatchObject({ say: 'flag.order-to-countersign.until', with: { at: until } });
  });

  it('is never one for a drug under control, whether it names the drug or its class (Verifies: LOG-R221)', () => {
    const { world, person } = shelter();
    const formulary = {
      ...starterFormulary,
      products: starterFormulary.products.map((one) => ({ ...one, controlled: true })),
    };
    const under = { ...world().shelter, formulary, protocol: starterProtocol };
    const vet = { ...person('vera'), licence: 'Invented 1' };
    const [product] = formulary.products;
    for (const treat of [
      { is: 'product', product: product?.id },
      { is: 'schedule', schedule: 'roundworm' },
    ]) {
      const wanted = { ...wash, treat: treat as never, amount: 'as said' };
      expect(writeOrder(under, vet, kit, wanted, noon, heard)).toMatchObject({
        ok: false,
        why: { say: 'due.order.controlled-by-telephone' },
      });
      expect(writeOrder(under, vet, kit, wanted, noon)).not.toMatchObject({
        why: { say: 'due.order.controlled-by-telephone' },
      });
    }
  });

  it('is written down by the desk only, under the veterinarian’s own name, and changes nothing that is there', async () => {
    const { log, ordered, admit, sent } = shelter();
    const by = async (who: string, more: object = {}) => await admit(sent(ordered(), who, more));
    expect(await by('sol')).toBe('in');
    expect(await by('ines')).toBe('record-not-allowed');
    expect(await by('cara')).toBe('record-not-allowed');
    // Without a word of the telephone it is what it always was: the desk may not order.
    const [plain] = ordered(null);
    expect(await admit(sent([{ ...(plain as Draft), by: 'vera' as never }], 'sol'))).toBe('record-not-allowed');
    // Nobody is on the telephone who is not there, or who may not order.
    expect(await by('sol', { by: 'sol', writtenBy: undefined })).toBe('record-not-allowed');
    expect(await by('sol', { by: 'ines' })).toBe('record-not-allowed');
    const [told] = ordered();
    const body = (told as Draft<'order-written'>).body;
    const other = { ...body, order: { ...body.order, vet: 'ines' } };
    expect(await by('sol', { body: other })).toBe('record-not-allowed');
    const [own] = log.add(ordered(null), 'vera');
    expect(await by('sol', { corrects: own?.id })).toBe('record-not-allowed');
  });

  it('signs no document, and opens none of the other doors of the medical team', async () => {
    const { log, admit, sent } = shelter();
    const signature = log.records.find(({ kind }) => kind === 'document-signed');
    const told = { by: 'vera', writtenBy: 'sol' };
    for (const record of [signature, ...log.records.filter(({ kind }) => kind === 'protocol-filed')]) {
      const body = { ...(record?.body as object), told: heard };
      expect(await admit({ ...record, id: 'told', body, ...told })).toBe('record-not-allowed');
    }
    const off = { variant: null, section: null, why: 'told', vet: 'vera', told: heard };
    expect(await admit(sent([draft('variant-switched', 'shelter:self', off as never, noon)], 'sol', told))).toBe(
      'record-not-allowed',
    );
  });
});

describe('an order in a veterinarian’s name (Verifies: LOG-R150)', () => {
  /** Milo is of the medical team and has no licence. */
  function withMilo() {
    const all = shelter();
    const milo = { person: 'milo', role: 'medical' } as const;
    all.log.add([draft('person-described', 'person:milo', milo as never, at('2026-03-01', '08:00'))], 'sol');
    const [own] = all.log.add(all.ordered(null), 'vera');
    if (own?.kind !== 'order-written') throw new Error('no order');
    const order = (more: object): Draft => ({
      ...draft('order-written', 'animal:kit-1', { order: { ...own.body.order, ...more }, told: null }, noon),
    });
    const orders = () => all.world().animals.get(kit)?.orders ?? [];
    const statuses = () => {
      const animal = all.world().animals.get(kit);
      return animal === undefined
        ? []
        : dueIn(all.world(), animal, today).flatMap(({ order: of, status, hold }) =>
            of === undefined ? [] : [[of === own.id ? 'own' : 'other', status, hold?.code ?? null]],
          );
    };
    return { ...all, own, order, orders, statuses };
  }

  it('is turned away when another hand wrote it, whoever it names, unless it was told by telephone', async () => {
    const { admit, sent, order, ordered } = withMilo();
    for (const vet of ['vera', 'milo', 'ines']) {
      expect(await admit(sent([order({ vet })], 'milo'))).toBe('record-not-allowed');
      expect(await admit(sent([{ ...order({ vet }), by: vet as never }], 'milo'))).toBe('record-not-allowed');
    }
    expect(await admit(sent([order({})], 'vera'))).toBe('in');
    expect(await admit(sent(ordered(), 'milo'))).toBe('in');
  });

  it('is put otherwise by nobody but that veterinarian, and withdrawn by nobody else either', async () => {
    const { admit, sent, own, order, ordered } = withMilo();
    const instead = { corrects: own.id } as const;
    const more = order({ amount: '9 mL' });
    expect(await admit(sent([{ ...more, ...instead }], 'vera'))).toBe('in');
    expect(await admit(sent([{ ...more, ...instead }], 'milo'))).toBe('record-not-allowed');
    expect(await admit(sent([{ ...order({ vet: 'milo' }), ...instead }], 'milo'))).toBe('record-not-allowed');
    expect(await admit(sent([{ ...(ordered()[0] as Draft), ...instead }], 'milo'))).toBe('record-not-allowed');
    const gone = draft('record-withdrawn', 'animal:kit-1', { reason: 'not mine' }, noon, own.id);
    expect(await admit(sent([gone], 'milo'))).toBe('record-not-allowed');
    expect(await admit(sent([gone], 'vera'))).toBe('in');
  });

  it('that is there all the same holds until it is countersigned, and displaces nothing', () => {
    const { log, own, order, orders, statuses, flags } = withMilo();
    log.add([{ ...order({ amount: '9 mL' }), corrects: own.id }], 'milo');
    expect(orders().map(({ terms }) => terms.amount)).toEqual(['', '9 mL']);
    expect(statuses()).toEqual([
      ['own', 'due', null],
      ['other', 'on-hold', 'order-by-another'],
    ]);
    expect(flags()).toMatchObject([{ code: 'order-to-countersign', severity: 'stop', by: 'milo' }]);
    log.add([{ ...order({ vet: 'milo' }), corrects: own.id }], 'milo');
    log.add([order({ vet: 'ines' })], 'milo');
    expect(statuses().map(([, status]) => status)).toEqual(['due', 'on-hold', 'on-hold', 'on-hold']);
    expect(flags().map(({ severity }) => severity)).toEqual(['stop', 'stop', 'stop']);
  });
});

describe('the countersignature (Verifies: LOG-R77)', () => {
  it('is the veterinarian’s own, and no words of anybody stand for it', async () => {
    const { log, person, ordered, order, flags, admit, sent } = shelter();
    log.add(ordered(), 'sol');
    const key = flags()[0]?.key ?? '';
    const words = { flag: key, answer: 'done', note: 'She called again.' } as const;
    log.one('flag-answered', `flag:${key}`, words, at('2026-03-02', '13:00'), undefined, { by: 'vera' });
    expect(flags()).toMatchObject([{ code: 'order-to-countersign', state: 'taken' }]);
    const answer = { says: 'mine' } as const;
    expect(countersignOrder(person('sol'), kit, order(), answer, noon).ok).toBe(false);
    const own = countersignOrder(person('vera'), kit, order(), answer, at('2026-03-02', '18:00'));
    if (!own.ok) throw new Error(own.why.say);
    expect(await admit(sent(own.value, 'sol'))).toBe('record-not-allowed');
    expect(await admit(sent(own.value, 'vera', { by: 'vera', writtenBy: 'sol' }))).toBe('record-not-allowed');
    // Should one come in by another's hand all the same, the fold does not take it.
    log.records.push(sent(own.value, 'vera', { id: 'forged', writtenBy: 'sol' }));
    expect(order().written?.answered).toBeNull();
    expect(await admit(sent(own.value, 'vera'))).toBe('in');
    log.add(own.value, 'vera');
    expect(order().written?.answered).toEqual({ at: at('2026-03-02', '18:00'), says: 'mine' });
    expect(flags()).toEqual([]);
  });

  it('that says no ends the order that day, and the desk is told', () => {
    const { log, person, ordered, order, flags } = shelter();
    log.add(ordered(), 'sol');
    const no = (note: string) =>
      countersignOrder(person('vera'), kit, order(), { says: 'not-mine', note }, at('2026-03-02', '18:00'));
    expect(no(' ').ok).toBe(false);
    const drafts = no('I said the left eye only.');
    if (!drafts.ok) throw new Error(drafts.why.say);
    log.add(drafts.value, 'vera');
    expect(order().ended).toEqual({ on: today, why: 'I said the left eye only.' });
    expect(flags()).toMatchObject([{ code: 'order-disowned', severity: 'stop', for: ['supervisor', 'medical'] }]);
  });
});

describe('a report by telephone (Verifies: LOG-R78)', () => {
  const dose = { schedule: 'roundworm', product: 'pyrantel-50', lot: null, volume_ul: 120, route: 'oral' };
  const report = (more: object): Draft => ({
    ...draft('treatment-given', 'animal:kit-1', { ...dose, here: false, told: heard, ...more } as never, noon),
    by: 'cara' as never,
  });

  it('is by the foster home that gave it and written down by whoever heard it', async () => {
    const { log, admit, sent, world } = shelter();
    expect(await admit(sent([report({})], 'ines'))).toBe('in');
    // A foster home gives nothing here, and nobody reports for it what was not told.
    expect(await admit(sent([report({ here: true })], 'ines'))).toBe('record-not-allowed');
    expect(await admit(sent([report({ told: null })], 'ines'))).toBe('record-not-allowed');
    expect(await admit(sent([report({})], 'cara'))).toBe('record-not-allowed');
    log.add([report({})], 'ines');
    expect(
      world()
        .animals.get(kit)
        ?.history.map(({ what }) => what),
    ).toEqual(['given']);
  });
});
