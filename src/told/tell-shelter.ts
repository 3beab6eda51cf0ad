import { type After, type Given, type Said, type SayValue, said } from '../core/said.js';
import { sectionOf } from '../log/views/shelter.js';
import type { World } from '../log/views/world.js';
import { kitName, lotName, productName, syringeName } from './names.js';
import { quoted } from './quoted.js';
import type { Tellable } from './tellable.js';

/** A sentence of this chapter. */
export type Tell = <E extends After<'desk.told.'>>(end: E, ...values: Given<`desk.told.${E}`>) => Said;

/** Records that are not about one animal, as one sentence each. */
export function tellShelter(world: World, record: Tellable): Said {
  const { shelter } = world;
  const told: Tell = (key, ...values) => said(`desk.told.${key}`, ...values);
  const lot = (): string => lotName(shelter, record.subject.slice('lot:'.length));
  const person = (id: string | null): SayValue => (id === null ? said('desk.nobody') : { person: id });
  const section = (id: string): string => sectionOf(shelter, id)?.name ?? id;
  switch (record.kind) {
    case 'shelter-described':
      return told(record.kind, { name: record.body.name, zone: record.body.zone });
    case 'section-described':
      return told(`${record.kind}.${record.body.closed ? 'closed' : 'open'}`, {
        name: record.body.name,
        rank: said(`parts.rank.${record.body.rank}`),
        kennels: record.body.kennels.length,
      });
    case 'person-described':
      return told(`${record.kind}.${record.body.active ? 'active' : 'gone'}`, {
        name: { person: record.body.person },
        role: said(`parts.role.${record.body.role}`),
      });
    case 'protocol-filed':
      return told(record.kind, { title: record.body.protocol.title, version: record.body.protocol.version });
    case 'formulary-filed':
      return told(record.kind, { title: record.body.formulary.title, version: record.body.formulary.version });
    case 'document-signed':
      return told(record.kind, {
        document: said(`desk.document.${record.body.document}`),
        version: record.body.version,
        signer: record.body.signer,
        licence: record.body.licence,
      });
    case 'document-retired':
      return told(record.kind, {
        document: said(`desk.document.${record.body.document}`),
        version: record.body.version,
        why: quoted(record.body.why),
      });
    case 'round-planned':
      return told(record.kind, {
        on: { date: record.body.on },
        sections: { list: record.body.sections.map(section) },
        treater: person(record.body.treater),
        holder: person(record.body.holder),
        animals: record.body.lines.length,
      });
    case 'round-begun':
      return told(record.kind);
    case 'team-changed':
      return told(record.kind, { treater: person(record.body.treater), holder: person(record.body.holder) });
    case 'section-entered':
      return told(record.kind, { section: section(record.body.section), why: quoted(record.body.wentBackBecause) });
    case 'section-left':
      return told(record.kind, { section: section(record.body.section) });
    case 'gloves-changed':
      return told(record.kind, { before: world.animals.get(record.body.before)?.name ?? record.body.before });
    case 'handed-back':
      return told(record.kind, { ...record.body, note: quoted(record.body.note) });
    case 'hand-back-accepted':
      return told(record.kind, { note: quoted(record.body.note) });
    case 'lot-received': {
      const { of, lotText, pieces, expires } = record.body;
      return told(`${record.kind}.${of.is}`, {
        what:
          of.is === 'product'
            ? productName(shelter, of.product)
            : of.is === 'kit'
              ? kitName(shelter, of.kitType)
              : of.is === 'syringe'
                ? syringeName(shelter, of.syringe)
                : of.is === 'supply'
                  ? of.name
                  : '',
        conjugate: of.is === 'kit' ? of.conjugateLot : '',
        lot: lotText,
        pieces,
        expires: expires === null ? said('desk.no-expiry') : { date: expires },
      });
    }
    case 'syringes-prepared': {
      const { count, lotText, with: what, withLot, keepsUntil } = record.body;
      const until =
        keepsUntil === null
          ? said('desk.told.keeps-unsaid')
          : said('desk.told.keeps-until', { until: { instant: keepsUntil } });
      const lotOfWhat = withLot === '' ? '' : said('desk.told.of-lot', { lot: withLot });
      return told(record.kind, { count, lot: lotText, with: what, withLot: lotOfWhat, until });
    }
    case 'lot-counted':
      return told(record.kind, { lot: lot(), pieces: record.body.pieces, note: quoted(record.body.note) });
    case 'lot-withdrawn':
      return told(record.kind, {
        lot: lot(),
        why: said(`desk.withdrawn.${record.body.why}`),
        note: quoted(record.body.note),
      });
    case 'kits-out-of-cold':
      return told(record.kind, { lot: lot(), count: record.body.count });
    case 'flag-taken':
      return told(record.kind);
    case 'flag-answered':
      return told(record.kind, { answer: said(`desk.answer.${record.body.answer}`), note: quoted(record.body.note) });
    case 'variant-switched': {
      const { variant, section: id, why, vet } = record.body;
      const name = shelter.protocol?.variants.find((one) => one.id === variant)?.name ?? variant;
      return told(record.kind, {
        what: name === null ? said('desk.variant.routine') : name,
        where: id === null ? said('desk.variant.everywhere') : section(id),
        why,
        by: { person: vet },
        licence: { licenceOf: vet },
      });
    }
    case 'record-withdrawn':
      return told(record.kind, {
        reason:
          record.body.why === null
            ? quoted(record.body.reason)
            : said('desk.told.withdrawn-why', { why: said(`round.correct.reason.${record.body.why}`) }),
      });
    case 'file-imported':
      return told(record.kind, {
        name: record.body.name,
        accepted: record.body.accepted,
        doubtful: record.body.doubtful,
        refused: record.body.refused,
      });
    case 'records-sent-again': {
      const { had, after, records } = record.body;
      return told(record.kind, { had, after, records });
    }
    default:
      return told('other', { kind: record.kind });
  }
}
