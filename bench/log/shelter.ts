import { type Draft, draft, type LogRecord, stamp } from '../../src/log/record.js';
import { formulary, protocol } from '../forecast/documents.js';

/** An invented shelter for measuring: some animals in care, and as many that have left as the log is to be long. */
export const today = '2026-06-15';
export const at = (date: string, minute = 0): string =>
  `${date}T${String(8 + Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}:00.000Z`;

export const inCare = 60;
const perAnimal = 20;

/** Stamps drafts, with ids and counts that go on from one call to the next. */
export function writer(device: string) {
  let count = 0;
  return (drafts: readonly Draft[], now = at(today)): LogRecord[] =>
    stamp(drafts, {
      shelter: 'bench' as never,
      zone: 'UTC',
      by: 'vera' as never,
      device: device as never,
      nextSeq: count + 1,
      now,
      newId: () => `${device}-${String(++count).padStart(8, '0')}`,
    });
}

const start = '2026-03-01';

export function shelterDrafts(): Draft[] {
  const person = { person: 'vera', name: 'Vera', role: 'medical', licence: 'Invented 1' } as never;
  const section = {
    section: 'nursery',
    name: 'Nursery',
    rank: 'clean-kittens',
    position: 0,
    kennels: [],
    wear: [],
    leave: [],
    contactMinutes: 10,
  } as never;
  const signed = (document: 'protocol' | 'formulary', { id, version }: { id: string; version: string }) =>
    draft(
      'document-signed',
      `document:${id}`,
      { document, id, version, signer: 'Vera', licence: 'Invented 1', on: start as never, statement: '' },
      at(start),
    );
  const of = { is: 'product', product: 'pyrantel-50' } as never;
  return [
    draft('shelter-described', 'shelter:self', { name: 'Bench', zone: 'UTC', weightUnit: 'g', demo: true }, at(start)),
    draft('person-described', 'person:vera', person, at(start)),
    draft('section-described', 'section:nursery', section, at(start)),
    draft('protocol-filed', `document:${protocol.id}`, { protocol }, at(start)),
    draft('formulary-filed', `document:${formulary.id}`, { formulary }, at(start)),
    signed('protocol', protocol),
    signed('formulary', formulary),
    ...['worm-a', 'worm-b'].map((lot) =>
      draft(
        'lot-received',
        `lot:${lot}`,
        { of, lotText: lot, expires: '2027-12-31' as never, pieces: 100_000, volume_ul: null },
        at(start),
      ),
    ),
  ];
}

/** One animal with weighings, doses and a chip; it has left when `left`. Lots change with the years, as they do. */
export function animalDrafts(n: number, left: boolean): Draft[] {
  const subject = `animal:a${n}`;
  const code = `0360123${String(n).padStart(8, '0')}`;
  const born = { earliest: '2026-01-20', latest: '2026-01-20', basis: 'known' } as never;
  const marks = { collar: '', coat: '', mark: '' };
  const takenIn = {
    label: String(n),
    name: `Animal ${n}`,
    litter: null,
    sex: 'female',
    neutered: 'no',
    born,
    arrivedOn: start as never,
    section: 'nursery' as never,
    kennel: `N${n % 50}`,
    marks,
    notes: '',
  } as never;
  const found = { raw: code, code, class: 'iso' };
  const worm = (day: string) =>
    draft('treatment-given', subject, given(left ? `worm-old-${n % 400}` : 'worm-a'), at(day, 30));
  const weighings = Array.from({ length: left ? perAnimal - 6 : perAnimal - 5 }, (_, i) =>
    draft(
      'animal-weighed',
      subject,
      { grams: 700 + 40 * i, entered: '' },
      at(`2026-0${4 + Math.floor(i / 20)}-${String((i % 20) + 1).padStart(2, '0')}`),
    ),
  );
  return [
    draft('animal-taken-in', subject, takenIn, at(start, 10)),
    draft('chip-scanned', subject, { target: 'animal', occasion: 'intake', found }, at(start, 11)),
    worm('2026-03-01'),
    worm('2026-03-15'),
    ...weighings,
    worm('2026-05-20'),
    ...(left ? [draft('animal-left', subject, { how: 'adopted', on: '2026-06-01' as never }, at('2026-06-01'))] : []),
  ];
}

const given = (lot: string) =>
  ({ schedule: 'roundworm', product: 'pyrantel-50', lot, volume_ul: 120, route: 'oral' }) as never;

/** After so many turns an animal is given a dose again, so that a log never holds more of them than a cat gets. */
export const turnsToNextDose = 97;

/** What a team writes at the cage: day by day a weight or a look at each animal, and now and then a dose. */
export function atTheCage(n: number): Draft {
  const subject = `animal:a${n % inCare}`;
  const turn = Math.floor(n / inCare);
  const time = at(`2026-06-${String((turn % 14) + 1).padStart(2, '0')}`, turn % 600);
  if (turn % turnsToNextDose === 3) return draft('treatment-given', subject, given('worm-b'), time);
  if (n % 2 === 0) return draft('animal-weighed', subject, { grams: 1500 + (n % 40), entered: '' }, time);
  const note = { code: 'coughing', state: 'absent', on: today as never } as never;
  return draft('observation-noted', subject, note, time);
}
