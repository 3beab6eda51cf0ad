import { lampCode } from '../core/animal/lamp.js';
import { type Said, said } from '../core/said.js';
import type { LogRecord } from '../log/record.js';
import { gateName } from '../log/views/doses/passed.js';
import type { World } from '../log/views/world.js';
import { holdWords, observationWords } from './codes.js';
import {
  bornSaid,
  chipText,
  kitName,
  lineName,
  lotName,
  placeSaid,
  productName,
  scheduleName,
  syringeName,
} from './names.js';
import { orderValues, toldSaid } from './order-words.js';
import { quoted } from './quoted.js';
import { type Tell, tellShelter } from './tell-shelter.js';
import type { Tellable } from './tellable.js';

export function tell(world: World, record: Tellable): Said {
  const { shelter } = world;
  const told: Tell = (key, ...values) => said(`desk.told.${key}`, ...values);
  switch (record.kind) {
    case 'animal-taken-in': {
      const { body } = record;
      return told(record.kind, {
        name: body.name === '' ? body.label : body.name,
        on: { date: body.arrivedOn },
        born: bornSaid(body.born),
        place: placeSaid(shelter, body.section, body.kennel),
      });
    }
    case 'animal-described':
      return told(record.kind, {
        what: {
          list: (Object.keys(record.body) as (keyof typeof record.body)[]).map((field) =>
            said(`desk.described.${field}`),
          ),
        },
      });
    case 'animal-moved':
      return told(record.kind, {
        place: placeSaid(shelter, record.body.section, record.body.kennel),
        from:
          record.body.from === null
            ? ''
            : said('desk.told.moved-from', {
                place: placeSaid(shelter, record.body.from.section, record.body.from.kennel),
              }),
        why: quoted(record.body.why),
      });
    case 'sign-set':
      return told(`${record.kind}.${record.body.hangs ? 'hung' : 'down'}`, {
        place: placeSaid(shelter, record.body.section, record.body.kennel),
      });
    case 'animal-left':
      return told(record.kind, {
        on: { date: record.body.on },
        how: said(`desk.left.${record.body.how}`),
        word:
          record.body.word === null ? '' : said('desk.told.animal-left.word', { person: { person: record.body.word } }),
        note: quoted(record.body.note),
      });
    case 'animal-weighed':
      return told(record.kind, {
        weight: { grams: record.body.grams },
        entered: sameText(record.body.entered, record.body.grams) ? '' : `; “${record.body.entered}”`,
        doubtful: record.body.doubtful ? 'yes' : 'no',
      });
    case 'observation-noted': {
      const { code, state, until, note, answer } = record.body;
      if (code === lampCode) return told('lamp', { answer: said(`desk.lamp.${answer ?? 'none'}`), note: quoted(note) });
      return told(record.kind, {
        what: observationWords(code),
        state,
        until: until === null ? said('desk.no-end') : { date: until },
        note: quoted(note),
      });
    }
    case 'hold-placed': {
      const { schedules, code, until, owner, recheckOn, note } = record.body;
      return told(record.kind, {
        what:
          schedules === 'all'
            ? said('desk.hold.everything')
            : { list: schedules.map((id) => scheduleName(shelter, id)) },
        code: holdWords(code),
        until: until === null ? said('desk.no-end') : { date: until },
        recheck: recheckOn == null ? '' : said('desk.told.hold-recheck', { date: { date: recheckOn } }),
        owner: owner == null ? said('desk.holds.nobody') : { person: owner },
        note: quoted(note),
      });
    }
    case 'hold-lifted':
      return told(record.kind, { note: quoted(record.body.note) });
    case 'animal-identified':
      return told(`${record.kind}.${record.body.by}`, {
        compared: { list: record.body.compared },
        reason: said(`desk.override.${record.body.reason === '' ? 'other' : record.body.reason}`),
        note: quoted(record.body.note),
      });
    case 'gate-opened':
      return said('drawup.told.gate-opened', {
        product: productName(shelter, record.body.product),
        gates: { list: record.body.gates.map((one) => gateName(one)) },
        name: { person: record.body.vet },
        licence: { licenceOf: record.body.vet },
        how: said(`drawup.how.${record.body.how}`),
        reason: record.body.reason,
        until: { date: record.body.until },
      });
    case 'treatment-given':
      return tellGiven(world, record, told);
    case 'treatment-not-given':
      return told(record.kind, {
        what: lineName(world, record.subject, record.body.schedule),
        why: said(`desk.not-given.${record.body.reason}`),
        because: record.body.because === null ? '' : said('desk.told.because', { why: record.body.because }),
        note: quoted(record.body.note),
      });
    case 'sample-drawn':
      return told(record.kind, {
        what: scheduleName(shelter, record.body.schedule),
        volume: { microlitres: record.body.volume_ul },
        assumed: record.body.assumed === true ? 'yes' : 'no',
        usable: record.body.usable ? 'yes' : 'no',
        box:
          record.body.syringeLot === null
            ? ''
            : said('desk.told.with-syringe', { lot: lotName(shelter, record.body.syringeLot) }),
      });
    case 'test-started':
      return told(record.kind, {
        what: scheduleName(shelter, record.body.schedule),
        kit: kitName(shelter, record.body.kitType),
        lot: record.body.kitLot || said('desk.lot-unknown'),
        conjugate: record.body.conjugateLot || said('desk.lot-unknown'),
        drops: record.body.drops ?? -1,
        untimed: record.body.untimed === true ? 'yes' : 'no',
        note: quoted(record.body.note ?? ''),
      });
    case 'test-read': {
      const zones = Object.entries(record.body.seen);
      const seen = zones.map(([zone, state]) =>
        said(`desk.zone.${state}`, { zone: zoneName(world, record.subject, record.body.run, zone) }),
      );
      if (zones.length === 0) return told(`${record.kind}.nobody`);
      return told(record.kind, { seen: { list: seen }, untimed: record.body.untimed === true ? 'yes' : 'no' });
    }
    case 'test-followed-up': {
      const { schedule, says, person: id } = record.body;
      const person = { person: id };
      const values = { what: scheduleName(shelter, schedule), on: { date: says.on }, person };
      return says.is === 'plan'
        ? told(`${record.kind}.plan`, { ...values, plan: says.what })
        : told(`${record.kind}.result`, {
            ...values,
            method: says.method,
            outcome: said(`desk.follow-up.came.${says.outcome}`),
            told: toldSaid(record.body.told),
          });
    }
    case 'test-abandoned':
      return told(record.kind, {
        reason: said(`desk.not-given.${record.body.why}`),
        note: quoted(record.body.note),
      });
    case 'chip-scanned': {
      const { found, target, occasion, leftToDesk, ofAnother, told: wasTold } = record.body;
      return told(`${record.kind}.${target}`, {
        occasion: said(`desk.occasion.${occasion}`),
        chip: found === null ? said('desk.chip.nothing') : chipText(found.code),
        told: wasTold === null ? '' : said(`desk.scan-told.${wasTold}`),
        left: leftToDesk ? 'yes' : 'no',
        another: ofAnother ? 'yes' : 'no',
      });
    }
    case 'chip-implanted':
      return told(record.kind, {
        chip: chipText(record.body.code),
        site: said(`desk.chip-site.${record.body.site}`),
      });
    case 'chip-discarded':
      return told(`${record.kind}.${record.body.why}`, { chip: chipText(record.body.code) });
    case 'order-written':
      return told(record.kind, orderValues(world, record.body.order, record.body.told));
    case 'order-countersigned': {
      const { order, says, note } = record.body;
      const known = (world.bySubject.get(record.subject) ?? []).find(({ id }) => id === order);
      const what = known?.kind === 'order-written' ? known.body.order.name : order;
      return told(`${record.kind}.${says}`, { order: what, note: quoted(note) });
    }
    case 'order-ended':
      return told(record.kind, { on: { date: record.body.on }, why: record.body.why });
    default:
      return tellShelter(world, record);
  }
}

/** Typed the way we write it anyway: then saying it twice helps nobody. */
const sameText = (entered: string, grams: number): boolean =>
  entered.replace(/[\s\u00a0,]/g, '') === `${grams}g` || entered.trim() === String(grams);

function tellGiven(world: World, record: Pick<LogRecord<'treatment-given'>, 'body' | 'subject'>, told: Tell): Said {
  const { shelter } = world;
  const { product, schedule, volume_ul, pieces, lot, lotText, outcome, here, note, syringe, passed, site } =
    record.body;
  const amount =
    volume_ul !== null
      ? said('desk.amount.volume', { volume: { microlitres: volume_ul } })
      : pieces === ''
        ? said('desk.amount.none')
        : said('desk.amount.pieces', { pieces });
  const { syringeLot, madeUp, dilution, places } = record.body;
  return told('treatment-given', {
    product: productName(shelter, product),
    schedule: lineName(world, record.subject, schedule),
    amount,
    lot: lot === null ? (lotText === '' ? said('desk.lot-unknown') : lotText) : lotName(shelter, lot),
    // A select in a message takes no hyphen.
    outcome: outcome === 'partly-taken' ? 'partly' : outcome === 'taken' ? 'taken' : 'not',
    here: here ? 'yes' : 'no',
    told: toldSaid(record.body.told),
    syringe: syringe === null ? '' : `, ${syringeName(shelter, syringe)}`,
    box: syringeLot === null ? '' : said('desk.told.from-box', { lot: lotName(shelter, syringeLot) }),
    site: site === '' ? '' : `, ${site}`,
    passed: passed.length,
    madeUp:
      madeUp === null ? '' : said('desk.told.made-up', { strength: madeUp.mg_per_ml, at: { instant: madeUp.at } }),
    diluted: dilution === null ? '' : said('desk.told.diluted', { recipe: dilution }),
    places,
    note: quoted(note),
  });
}

function zoneName(world: World, subject: string, run: string, zone: string): string {
  const records = world.bySubject.get(subject) ?? [];
  const start = records.find((one) => one.kind === 'test-started' && one.body.run === run);
  if (start?.kind !== 'test-started') return zone;
  const everything = [world.shelter.formulary, ...world.shelter.formularies.map((filed) => filed.document)];
  const kit = everything.flatMap((one) => one?.kits ?? []).find((one) => one.id === start.body.kitType);
  return kit?.zones.find((one) => one.id === zone)?.name ?? zone;
}
