import { describe, expect, it } from 'vitest';
import { demoOn } from '../../test/support/demo.js';
import { storyOf } from '../../test/support/demo-story.js';
import { rankOrder } from '../core/biosecurity/section.js';
import { ageDays, dayOfInstant, daysBetween } from '../core/calendar.js';
import { readChip } from '../core/chip/read-chip.js';
import { plausibleWeight } from '../core/dosing/plausible-weight.js';
import { hoursBetween } from '../core/growth/gain.js';
import { resultOf } from '../core/point-of-care/result.js';
import { standingsOf } from '../core/rights/standing.js';
import type { Kind } from '../log/kinds/index.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import { worthOf } from '../log/views/due/due.js';
import { roundView } from '../log/views/round/round.js';
import { sectionOf } from '../log/views/shelter.js';
import { inCare } from '../log/views/world.js';
import { mayAppend } from '../log/who-may.js';
import { msOf } from './instant.js';
import { shelterName } from './setup.js';
import { expiredVial } from './stock.js';

const demo = demoOn('2026-03-12');
const { records, people, today, zone, now } = demo;
const story = storyOf(demo);
const { world } = story;
const of = <K extends Kind>(kind: K): LogRecord<K>[] =>
  records.flatMap((record) => (record.kind === kind ? [record as LogRecord<K>] : []));
const nameOf = (record: LogRecord): string =>
  [...world.animals.values()].find((animal) => record.subject === `animal:${animal.id}`)?.name ?? '';

describe('the records of the demo', () => {
  it('are the same bytes for the same seed and others for another', () => {
    expect(JSON.stringify(demoOn('2026-03-12').records)).toBe(JSON.stringify(records));
    expect(JSON.stringify(demoOn('2026-03-12', zone, '08:00', 2).records)).not.toBe(JSON.stringify(records));
  });

  it('are as many as a shelter of this size writes', () => {
    expect(records.length).toBeGreaterThan(1_900);
    expect(records.length).toBeLessThan(4_000);
    expect(inCare(world).length).toBeGreaterThan(55);
    expect(inCare(world).length).toBeLessThan(66);
  });

  it('are read from the wire as they are', () => {
    for (const record of records) {
      const read = parseRecord(JSON.parse(JSON.stringify(record)));
      expect(read.ok && read.value).toEqual(record);
    }
  });

  it('happen before they are written down, and are written down before now', () => {
    for (const record of records) {
      expect(record.happenedAt <= record.recordedAt).toBe(true);
      expect(record.recordedAt <= now).toBe(true);
      expect(dayOfInstant(record.recordedAt, zone) < today).toBe(true);
    }
    expect(records.map((one) => one.recordedAt)).toEqual(records.map((one) => one.recordedAt).sort());
  });

  it('are counted by each device without a hole', () => {
    const devices = new Set(records.map((record) => record.device));
    expect(devices.size).toBe(4);
    for (const device of devices) {
      const counts = records.filter((record) => record.device === device).map((record) => record.deviceSeq);
      expect(counts).toEqual(counts.map((_, index) => index + 1));
    }
  });

  it('have ids of the form of UUID version 7 with the time of writing, each once', () => {
    for (const { id, recordedAt } of records) {
      expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
      const at = Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
      expect(Math.abs(at - msOf(recordedAt))).toBeLessThan(1);
    }
    expect(new Set(records.map((record) => record.id)).size).toBe(records.length);
  });

  it('are written by people who may', () => {
    for (const record of records) {
      const person = world.shelter.people.find((one) => one.id === record.by);
      const licence = people.find((one) => one.id === record.by)?.licence ?? '';
      const has = person === undefined ? [] : standingsOf(person.role, licence);
      expect(mayAppend(has, record.kind), `${person?.id} ${record.kind}`).toBe(true);
    }
  });

  it('say that all is invented, and name no product but those of the formulary', () => {
    expect(world.shelter.demo).toBe(true);
    expect(world.shelter.name).toBe(shelterName);
    expect(shelterName).toContain('invented');
    for (const { body } of of('document-signed')) {
      expect(body.statement).toContain('invented');
      expect(body.licence).toContain('INVENTED');
    }
    for (const animal of world.animals.values()) expect(animal.notes).toMatch(/^Invented animal of the demo/);
    for (const { body } of of('lot-received')) expect(body.lotText).toMatch(/^DEMO-/);
    for (const { body } of of('chip-scanned')) expect(body.scanner).toContain('invented');
    const known = new Set(world.shelter.formulary?.products.map((product) => product.id));
    for (const { body } of of('treatment-given')) expect(known.has(body.product)).toBe(true);
  });
});

describe('what there is to see today', () => {
  it('has something of everything', () => {
    expect(story.missing()).toEqual([]);
  });

  it('has corrections and a withdrawal that stay visible', () => {
    const corrections = records.filter((record) => record.corrects !== undefined);
    expect(corrections.map((record) => `${record.kind} ${nameOf(record)}`).sort()).toEqual([
      'animal-weighed Campion',
      'record-withdrawn Basil',
    ]);
    expect(story.animal('Campion').weighings.every(({ grams }) => grams < 2000)).toBe(true);
  });

  it('has omissions with reasons', () => {
    const reasons = new Set(of('treatment-not-given').map(({ body }) => body.reason));
    for (const reason of ['animal-not-found', 'ran-out-of-time', 'animal-too-stressed', 'draw-failed']) {
      expect(reasons).toContain(reason);
    }
  });

  it('leaves open what is still to be dealt with, and nothing else', () => {
    const open = story.flags.filter((flag) => flag.state !== 'answered').map((flag) => flag.code);
    expect(open.sort()).toEqual([
      'chip-differs',
      'expired-lot',
      'given-twice',
      'lot-expired',
      'lot-expires-soon',
      'no-section',
      'order-to-countersign',
      'override',
      'reactive',
      'test-invalid',
      'weight-doubtful',
      'weight-loss',
    ]);
  });
});

describe('the work of six weeks', () => {
  it('is true to the protocol: a dose that does not count has its story', () => {
    const odd: string[] = [];
    for (const animal of world.animals.values()) {
      for (const one of worthOf(animal, world.shelter, today)) {
        if (one.status !== 'valid') odd.push(`${animal.name} ${one.schedule} ${one.status} ${one.reason}`);
      }
    }
    expect(odd.sort()).toEqual([
      'Hazel felv-test not-valid test-read-late',
      'Hyssop felv-test not-valid test-invalid',
      'Kestrel roundworm extra same-day',
      'Lovage core-vaccine substandard expired-lot',
      'Mallow felv-test not-valid test-abandoned',
      'Rue chip pending not-confirmed',
    ]);
  });

  it('reads every test inside its window but the one that was read late', () => {
    const starts = new Map(of('test-started').map((record) => [record.body.run, record]));
    const late: string[] = [];
    for (const read of of('test-read')) {
      const start = starts.get(read.body.run);
      const kit = world.shelter.formulary?.kits.find((one) => one.id === start?.body.kitType);
      if (start === undefined || kit === undefined) throw new Error('a reading without its start');
      const { result } = resultOf(kit, start.happenedAt, read.happenedAt, read.body.seen);
      if (result === 'not-valid') late.push(nameOf(read));
      expect(start.body.conjugateLot).toBe(start.body.kitLot);
      expect(hoursBetween(start.body.outOfColdAt ?? start.happenedAt, start.happenedAt) * 60).toBeGreaterThan(30);
    }
    expect(late).toEqual(['Hazel']);
  });

  it('draws to a mark of the syringe, as planned', () => {
    const syringes = new Map(world.shelter.formulary?.syringes.map((one) => [one.id, one]));
    const products = new Map(world.shelter.formulary?.products.map((one) => [one.id, one]));
    const others: string[] = [];
    for (const record of of('treatment-given')) {
      const { body } = record;
      const { mark_ul, capacity_ul } = syringes.get(body.syringe ?? ('' as never)) ?? { mark_ul: 0, capacity_ul: 0 };
      expect((body.planned_ul ?? 0) % mark_ul).toBe(0);
      expect(body.planned_ul).toBeLessThanOrEqual(capacity_ul);
      if (body.volume_ul !== body.planned_ul) others.push(nameOf(record));
      const product = products.get(body.product);
      const strength = product?.ingredients[0]?.mg_per_ml;
      if (product?.band == null || strength == null || body.grams === null) continue;
      const mgPerKg = ((body.planned_ul ?? 0) * Number(strength)) / body.grams;
      expect(mgPerKg).toBeGreaterThanOrEqual(Number(product.band.low));
      expect(mgPerKg).toBeLessThanOrEqual(Number(product.band.high));
    }
    expect(others).toEqual(['Speedwell']);
  });

  it('makes sure of every animal before anything is given on a round, and goes from clean to sick', () => {
    expect(story.flagged('not-identified')).toEqual([]);
    const back: string[] = [];
    for (const { visits, plan } of world.shelter.rounds.values()) {
      let worst = -1;
      for (const visit of visits) {
        const rank = rankOrder(sectionOf(world.shelter, visit.section)?.rank ?? 'clean-kittens');
        if (rank < worst) back.push(`${daysBetween(plan.on, today)} ${visit.section}: ${visit.wentBackBecause}`);
        worst = Math.max(worst, rank);
        expect(visit.leftAt !== null && visit.leftAt > visit.enteredAt).toBe(true);
      }
    }
    expect(back).toHaveLength(1);
  });

  it('leaves nothing of a round open: done, or not done with a reason', () => {
    for (const id of world.shelter.rounds.keys()) {
      const view = roundView(world, id);
      expect(view?.counts.open).toBe(0);
      expect(view?.counts.done).toBe(view?.facts.handedBack?.done);
      expect(view?.counts.notDone).toBe(view?.facts.handedBack?.notDone);
    }
  });

  it('hands every round back and accepts it after that', () => {
    for (const { handedBack, accepted, begunAt } of world.shelter.rounds.values()) {
      expect(handedBack !== null && begunAt !== null && begunAt < handedBack.at).toBe(true);
      if (accepted !== null && handedBack !== null) expect(accepted.at > handedBack.at).toBe(true);
    }
  });

  it('uses no expired lot but the vial found at the stock-take, and no lot below zero', () => {
    expect(story.flagged('lot-below-zero')).toEqual([]);
    const expired = of('treatment-given').filter(({ body, happenedAt }) => {
      const lot = body.lot === null ? undefined : world.shelter.lots.get(body.lot);
      return lot?.expires != null && dayOfInstant(happenedAt, zone) > lot.expires;
    });
    expect(expired.map(({ body }) => world.shelter.lots.get(body.lot ?? ('' as never))?.lotText)).toEqual([
      expiredVial.lotText,
    ]);
  });

  it('scans three times at every implant, with numbers of the invented block', () => {
    for (const implant of of('chip-implanted')) {
      const scans = of('chip-scanned').filter(
        ({ subject, body }) => subject === implant.subject && ['before', 'pack', 'after'].includes(body.occasion),
      );
      expect(scans.map(({ body }) => body.occasion)).toEqual(['before', 'pack', 'after']);
      const [before, pack, after] = scans.map(({ body }) => body.found?.code ?? null);
      expect(before).toBeNull();
      expect(pack).toBe(implant.body.code);
      if (nameOf(implant) !== 'Rue') expect(after).toBe(implant.body.code);
      const read = readChip(implant.body.code);
      expect(read.ok && read.value.class === 'iso' && read.value.warnings.length === 0).toBe(true);
      expect(implant.body.code).toMatch(/^900000000\d{6}$/);
    }
  });

  /**
   * At least 7 g a day until weaning: Small Animal Clinical Nutrition, 5th ed., table 23-5. What a weight may jump by is
   * checked by the rules of the program itself.
   */
  it('lets kittens grow as they should, but for the one that fails', () => {
    for (const animal of world.animals.values()) {
      const steady = animal.weighings.filter((one) => !one.doubtful);
      for (const [index, weighing] of steady.entries()) {
        const last = steady[index - 1];
        const days = {
          youngest: ageDays(animal.born.latest, weighing.on),
          oldest: ageDays(animal.born.earliest, weighing.on),
        };
        const before =
          last === undefined ? null : { grams: last.grams, daysAgo: hoursBetween(last.at, weighing.at) / 24 };
        expect(plausibleWeight(weighing.grams, { last: before, ageDays: days }).doubtful).toBe(false);
        if (before === null || before.daysAgo < 0.5 || days.oldest >= 56 || animal.name === 'Sanderling') continue;
        expect((weighing.grams - before.grams) / before.daysAgo, animal.name).toBeGreaterThanOrEqual(7);
      }
    }
    const doubted = story.animal('Heron').weighings.at(-1);
    const last = story.animal('Heron').weighings.at(-2);
    const known = { last: { grams: last?.grams ?? 0, daysAgo: 14 }, ageDays: null };
    expect(plausibleWeight(doubted?.grams ?? 0, known).doubtful).toBe(true);
  });
});
