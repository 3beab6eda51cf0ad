// A small invented ward for the round in other engines: two kittens of one room, what they need and what is on the shelf.
// Plain records, as a device would have made them.
import { DeviceId, PersonId, ShelterId } from '../../dist/core/ids.js';
import { draft, stamp } from '../../dist/log/record.js';

const start = '2026-05-01T06:00:00.000Z';
const today = '2026-05-14';
const arrived = '2026-05-09';
/** Chips of one box; the first is in Reed since it came. */
const codes = ['900000000301113', '900000000301126'];
const people = [
  ['petra', 'Petra Vellum', 'medical', 'licence 0 (invented)'],
  ['ada', 'Ada Quill', 'supervisor', ''],
  ['tove', 'Tove Margin', 'volunteer', ''],
  ['jonas', 'Jonas Blotter', 'volunteer', ''],
];
const animals = [
  { id: 'reed', kennel: '1', grams: 610, on: '2026-05-09' },
  { id: 'sedge', kennel: '2', grams: 720, on: today },
];

export function engineWard({ protocol, formulary }) {
  const records = [];
  const add = (kind, subject, body, happenedAt, by = 'petra') => {
    const made = stamp([draft(kind, subject, body, happenedAt)], {
      shelter: ShelterId.parse('engine-ward'),
      zone: 'UTC',
      by: PersonId.parse(by),
      device: DeviceId.parse('desk-of-the-ward'),
      nextSeq: records.length + 1,
      now: happenedAt,
      newId: () => `0196cb02-0000-7000-8000-${String(records.length + 1).padStart(12, '0')}`,
    });
    records.push(...made);
  };
  const ward = { name: 'Small ward (invented)', zone: 'UTC', weightUnit: 'g', demo: true };
  add('shelter-described', 'shelter:self', ward, start);
  for (const [person, , role] of people) add('person-described', `person:${person}`, { person, role }, start);
  const room = { name: 'Kitten room', rank: 'clean-kittens', position: 0, kennels: ['1', '2'], contactMinutes: 10 };
  add('section-described', 'section:room', { section: 'room', ...room, wear: ['gloves'], leave: [] }, start);
  add('protocol-filed', `document:${protocol.id}`, { protocol }, start);
  add('formulary-filed', `document:${formulary.id}`, { formulary }, start);
  for (const [document, { id, version }] of Object.entries({ protocol, formulary })) {
    const signed = {
      signer: 'Petra Vellum',
      licence: 'licence 0 (invented)',
      on: '2026-05-01',
      statement: 'Invented.',
    };
    add('document-signed', `document:${id}`, { document, id, version, ...signed }, start);
  }
  const lots = {
    wormer: { of: { is: 'product', product: 'pyrantel-50' }, lotText: 'LOT-PYRA', pieces: 50 },
    kits: { of: { is: 'kit', kitType: 'felv-antigen-a', conjugateLot: 'KIT-7' }, lotText: 'KIT-7', pieces: 20 },
    chips: { of: { is: 'chips', codes }, lotText: 'BOX-1', pieces: codes.length },
  };
  for (const [id, lot] of Object.entries(lots))
    add('lot-received', `lot:${id}`, { expires: '2027-01-01', ...lot }, start);
  for (const { id, kennel, grams, on } of animals) {
    const name = `${id[0].toUpperCase()}${id.slice(1)}`;
    const taken = {
      label: '',
      name,
      litter: { id: 'grasses', name: 'Grasses' },
      sex: 'female',
      neutered: 'no',
      born: { earliest: '2026-03-30', latest: '2026-03-30', basis: 'known' },
      arrivedOn: arrived,
      section: 'room',
      kennel,
      marks: { collar: `tag “${id}”`, coat: 'tabby', mark: `white foot, shaved ${id[0]}`, photo: null },
    };
    add('animal-taken-in', `animal:${id}`, taken, `${arrived}T08:00:00.000Z`);
    add('animal-weighed', `animal:${id}`, { grams, entered: `${grams} g` }, `${on}T08:00:00.000Z`);
  }
  // What else would be due is done.
  const lamp = { code: 'ringworm-lamp', state: 'present', on: arrived, answer: 'no-glow' };
  const vaccine = { schedule: 'core-vaccine', product: 'core-vaccine-live-1ml', lot: null, volume_ul: 1000 };
  for (const { id } of animals) {
    add('observation-noted', `animal:${id}`, lamp, `${arrived}T08:20:00.000Z`);
    add('treatment-given', `animal:${id}`, { ...vaccine, route: 'subcutaneous' }, `${arrived}T08:30:00.000Z`);
  }
  const found = { raw: codes[0], code: codes[0], class: 'iso' };
  add('chip-scanned', 'animal:reed', { target: 'animal', occasion: 'intake', found }, `${arrived}T08:10:00.000Z`);
  const names = people.map(([id, name, , licence]) => ({ id, name, licence, contacts: [], withdrawn: false }));
  return { records, people: names };
}
