// A small invented ward with one round under way, for the journey through the traps of dosing. Plain records, as a device
// would have made them, so that what the screens say rests on nothing but the record and the signed documents.

import { orderSchedule } from '../../dist/core/animal/vet-order.js';
import { DeviceId, PersonId, ShelterId } from '../../dist/core/ids.js';
import { draft, stamp } from '../../dist/log/record.js';

export const round = 'dose-round';
export const today = '2026-05-14';

/**
 * Born, weighed at, grams, and what the veterinarian ordered; the roundworm line is the protocol's. `terms`: more of the
 * order; `line` false: in care, but not on the round.
 */
const usualAnimals = [
  { id: 'anise', born: '2026-03-12', at: '2026-05-06T09:00:00.000Z', grams: 900, order: null },
  { id: 'basil', born: '2026-03-27', at: '2026-05-10T09:00:00.000Z', grams: 620, order: null },
  { id: 'cress', born: '2026-03-12', at: '2026-05-14T12:00:00.000Z', grams: 800, order: null },
  { id: 'dill', born: '2025-05-01', at: '2026-05-14T12:00:00.000Z', grams: 2500, order: 'selamectin-60' },
  { id: 'elder', born: '2026-04-09', at: '2026-05-14T12:00:00.000Z', grams: 500, order: 'imidacloprid-100' },
  {
    id: 'fennel',
    born: '2025-05-01',
    at: '2026-05-14T12:00:00.000Z',
    grams: 4700,
    order: 'praziquantel-injection-56-8',
  },
  { id: 'ginger', born: '2026-04-02', at: '2026-05-14T12:00:00.000Z', grams: 500, order: 'ponazuril-100' },
  { id: 'hyssop', born: '2026-03-12', at: '2026-05-14T12:00:00.000Z', grams: 680, order: 'imidacloprid-100' },
  { id: 'juniper', born: '2026-03-12', at: '2026-05-14T12:00:00.000Z', grams: 300, order: null },
  {
    id: 'iris',
    born: '2026-04-23',
    at: '2026-05-14T12:00:00.000Z',
    grams: 330,
    order: 'imidacloprid-100',
    terms: { opens: [{ gate: 'below-label-age', reason: 'Flea anaemia, invented.', until: today }] },
  },
];

export function doseWard({ protocol, formulary, animals = usualAnimals }) {
  const records = [];
  const names = [];
  let count = 0;
  const add = (kind, subject, body, happenedAt, by = 'mara') => {
    const made = stamp([draft(kind, subject, body, happenedAt)], {
      shelter: ShelterId.parse('dose-ward'),
      zone: 'UTC',
      by: PersonId.parse(by),
      device: DeviceId.parse('desk'),
      nextSeq: records.length + 1,
      now: happenedAt,
      newId: () => `0196cb00-0000-7000-8000-${String(++count).padStart(12, '0')}`,
    });
    records.push(...made);
    return made[0];
  };
  const start = '2026-05-01T06:00:00.000Z';
  add(
    'shelter-described',
    'shelter:self',
    { name: 'Dose ward (invented)', zone: 'UTC', weightUnit: 'g', demo: true },
    start,
  );
  for (const [person, role, licence] of [
    ['mara', 'medical', 'licence 0 (invented)'],
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
    const body = {
      document,
      id,
      version,
      signer: 'mara (invented)',
      licence: 'licence 0 (invented)',
      on: '2026-05-01',
      statement: 'For a test; invented.',
    };
    add('document-signed', `document:${id}`, body, start);
  }
  for (const product of ['pyrantel-50', 'imidacloprid-100', 'praziquantel-injection-56-8', 'ponazuril-100']) {
    const body = {
      of: { is: 'product', product },
      lotText: `LOT-${product.slice(0, 4).toUpperCase()}`,
      expires: '2027-01-01',
      pieces: 50,
    };
    add('lot-received', `lot:${product}`, body, start);
  }
  const lines = [];
  for (const { id, born, at, grams, order, terms: more = {}, line = true } of animals) {
    const subject = `animal:${id}`;
    const name = `${id[0].toUpperCase()}${id.slice(1)}`;
    const taken = {
      label: '',
      name,
      litter: { id: 'herbs', name: 'Herb litter' },
      sex: 'female',
      neutered: 'no',
      born: { earliest: born, latest: born, basis: 'known' },
      arrivedOn: '2026-05-02',
      section: 'room',
      kennel: '1',
      // Litter mates: two marks of each are like nobody else's.
      marks: { collar: `tag “${id}”`, coat: 'tabby', mark: `white foot, shaved ${id[0]}`, photo: null },
    };
    add('animal-taken-in', subject, taken, '2026-05-02T08:00:00.000Z');
    add('animal-weighed', subject, { grams, entered: `${grams} g` }, at);
    let schedule = id === 'juniper' ? 'felv-test' : 'roundworm';
    if (id === 'juniper') {
      // Three failed draws: 1.2 mL of the 1.26 mL that 300 g may lose in a week.
      for (const day of ['11', '12', '13']) {
        const drawn = { run: `run-${day}`, schedule, volume_ul: 400, usable: false, sample: 'whole-blood' };
        add('sample-drawn', subject, drawn, `2026-05-${day}T10:00:00.000Z`, 'ines');
      }
    }
    if (order !== null) {
      const course = order === 'ponazuril-100';
      const terms = {
        name: `Order for ${name}`,
        treat: { is: 'product', product: order },
        starts: course ? '2026-05-13' : today,
        timing: { is: 'days', every: 1 },
        ends: { is: 'after-doses', doses: course ? 3 : 1 },
        why: 'Invented.',
        vet: 'mara',
        ...more,
      };
      schedule = orderSchedule(add('order-written', subject, { order: terms }, '2026-05-13T10:00:00.000Z').id);
      if (course) {
        const body = { schedule, product: order, lot: order, volume_ul: 240, route: 'by mouth', grams: 480 };
        add('treatment-given', subject, body, '2026-05-13T18:00:00.000Z', 'ines');
      }
    }
    if (line) lines.push({ animal: id, schedules: [schedule] });
  }
  const plan = {
    on: today,
    sections: ['room'],
    treater: 'ines',
    holder: 'tom',
    startsAt: `${today}T18:00:00.000Z`,
    lines,
  };
  add('round-planned', `round:${round}`, plan, `${today}T17:00:00.000Z`);
  add('round-begun', `round:${round}`, {}, `${today}T18:00:00.000Z`, 'ines');
  add('section-entered', `round:${round}`, { section: 'room', worn: [] }, `${today}T18:01:00.000Z`, 'ines');
  for (const { id } of animals) {
    add(
      'animal-identified',
      `animal:${id}`,
      { round, by: 'marks', compared: ['collar'] },
      `${today}T18:02:00.000Z`,
      'ines',
    );
  }
  return { records, people: names };
}
