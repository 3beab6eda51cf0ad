// A small invented ward with one round that was worked on paper, for the journey of a paper day. Plain records, as a
// device would have made them.
import { DeviceId, PersonId, ShelterId } from '../../dist/core/ids.js';
import { draft, stamp } from '../../dist/log/record.js';

export const round = 'paper-round';
const today = '2026-05-14';
/** Chips of one box; two end alike, and the last one is in an animal. */
const codes = ['900000000204101', '900000000204102', '900000000214102', '900000000204109'];

const animals = [
  { id: 'fern', born: '2026-02-05', grams: 1400, schedules: ['felv-test', 'chip', 'core-vaccine'] },
  { id: 'moss', born: '2026-02-05', grams: 1300, schedules: ['felv-test'] },
  { id: 'sedge', born: '2026-03-12', grams: 800, schedules: ['weighing', 'roundworm'] },
  { id: 'reed', born: '2026-02-05', grams: 1500, schedules: ['core-vaccine'] },
];

export function paperWard({ protocol, formulary }) {
  const records = [];
  const names = [];
  let count = 0;
  const add = (kind, subject, body, happenedAt, by = 'mara') => {
    const made = stamp([draft(kind, subject, body, happenedAt)], {
      shelter: ShelterId.parse('paper-ward'),
      zone: 'UTC',
      by: PersonId.parse(by),
      device: DeviceId.parse('desk-of-the-ward'),
      nextSeq: records.length + 1,
      now: happenedAt,
      newId: () => `0196cb00-0000-7000-8000-${String(++count).padStart(12, '0')}`,
    });
    records.push(...made);
  };
  const start = '2026-05-01T06:00:00.000Z';
  const ward = { name: 'Paper ward (invented)', zone: 'UTC', weightUnit: 'g', demo: true };
  add('shelter-described', 'shelter:self', ward, start);
  for (const [person, role, licence] of [
    ['mara', 'medical', 'licence 0 (invented)'],
    ['ada', 'supervisor', ''],
    ['ines', 'volunteer', ''],
    ['tom', 'volunteer', ''],
  ]) {
    add('person-described', `person:${person}`, { person, role }, start);
    names.push({ id: person, name: `${person} (invented)`, licence, contacts: [], withdrawn: false });
  }
  const room = {
    section: 'room',
    name: 'Kitten room',
    rank: 'clean-kittens',
    position: 0,
    kennels: ['1'],
    wear: [],
    leave: [],
    contactMinutes: 10,
  };
  add('section-described', 'section:room', room, start);
  add('protocol-filed', `document:${protocol.id}`, { protocol }, start);
  add('formulary-filed', `document:${formulary.id}`, { formulary }, start);
  for (const [document, { id, version }] of [
    ['protocol', protocol],
    ['formulary', formulary],
  ]) {
    const signed = { signer: 'mara (invented)', licence: 'licence 0 (invented)', on: '2026-05-01' };
    add('document-signed', `document:${id}`, { document, id, version, ...signed, statement: 'Invented.' }, start);
  }
  const lots = {
    wormer: { of: { is: 'product', product: 'pyrantel-50' }, lotText: 'LOT-PYRA', pieces: 50 },
    vaccine: { of: { is: 'product', product: 'core-vaccine-live-1ml' }, lotText: 'LOT-CORE', pieces: 50 },
    kits: { of: { is: 'kit', kitType: 'felv-antigen-a', conjugateLot: 'KIT-7' }, lotText: 'KIT-7', pieces: 20 },
    chips: { of: { is: 'chips', codes }, lotText: 'BOX-1', pieces: codes.length },
  };
  for (const [id, lot] of Object.entries(lots))
    add('lot-received', `lot:${id}`, { expires: '2027-01-01', ...lot }, start);
  for (const { id, born, grams } of animals) {
    const taken = {
      label: '',
      name: `${id[0].toUpperCase()}${id.slice(1)}`,
      litter: null,
      sex: 'female',
      neutered: 'no',
      born: { earliest: born, latest: born, basis: 'known' },
      arrivedOn: '2026-05-02',
      section: 'room',
      kennel: '1',
      marks: { collar: 'teal', coat: 'tabby', mark: `${id} foot`, photo: null },
    };
    add('animal-taken-in', `animal:${id}`, taken, '2026-05-02T08:00:00.000Z');
    add('animal-weighed', `animal:${id}`, { grams, entered: `${grams} g` }, `${today}T08:00:00.000Z`);
  }
  const found = { raw: codes[3], code: codes[3], class: 'iso' };
  add('chip-scanned', 'animal:reed', { target: 'animal', occasion: 'intake', found }, '2026-05-02T08:10:00.000Z');
  const plan = {
    on: today,
    sections: ['room'],
    treater: 'ines',
    holder: 'tom',
    startsAt: `${today}T10:00:00.000Z`,
    lines: animals.map(({ id, schedules }) => ({ animal: id, schedules })),
  };
  add('round-planned', `round:${round}`, plan, `${today}T09:00:00.000Z`, 'ada');
  return { records, people: names };
}
