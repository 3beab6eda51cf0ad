// A small invented ward for the journey of what is not settled: a cat with a reactive test in isolation, two tests that
// run, four kittens for the ringworm lamp. Plain records, as devices would have made them.
import { DeviceId, PersonId, ShelterId } from '../../dist/core/ids.js';
import { draft, stamp } from '../../dist/log/record.js';

export const round = 'reactive-round';
const today = '2026-05-14';

/** One animal each: where it is, and what the round has for it. */
const animals = [
  { id: 'borage', section: 'isolation', kennel: 'S4', line: null },
  { id: 'mint', section: 'room', kennel: '1', line: 'felv-test' },
  { id: 'nettle', section: 'room', kennel: '2', line: 'felv-test' },
  { id: 'orache', section: 'room', kennel: '3', line: 'ringworm-lamp' },
  { id: 'parsley', section: 'room', kennel: '3', line: 'ringworm-lamp' },
  { id: 'rue', section: 'room', kennel: '3', line: 'ringworm-lamp' },
  { id: 'sage', section: 'room', kennel: '3', line: 'ringworm-lamp' },
];
const people = [
  ['mara', 'medical', 'licence 0 (invented)'],
  ['ada', 'supervisor', ''],
  ['ines', 'volunteer', ''],
  ['tom', 'volunteer', ''],
];
/** Runs: whose, when the clock was started, and what was seen at which time. */
const runs = [
  { of: 'borage', at: '2026-05-13T10:00:00.000Z', read: '2026-05-13T10:08:30.000Z', round: null },
  { of: 'mint', at: `${today}T18:22:00.000Z`, read: null, round },
  { of: 'nettle', at: `${today}T18:15:00.000Z`, read: null, round },
];

export function reactiveWard({ protocol, formulary }) {
  const records = [];
  const names = [];
  let count = 0;
  const add = (kind, subject, body, happenedAt, by = 'mara') => {
    const made = stamp([draft(kind, subject, body, happenedAt)], {
      shelter: ShelterId.parse('reactive-ward'),
      zone: 'UTC',
      by: PersonId.parse(by),
      device: DeviceId.parse('desk'),
      nextSeq: records.length + 1,
      now: happenedAt,
      newId: () => `0196cb01-0000-7000-8000-${String(++count).padStart(12, '0')}`,
    });
    records.push(...made);
  };
  const start = '2026-05-01T06:00:00.000Z';
  const ward = { name: 'Reactive ward (invented)', zone: 'UTC', weightUnit: 'g', demo: true };
  add('shelter-described', 'shelter:self', ward, start);
  for (const [person, role, licence] of people) {
    add('person-described', `person:${person}`, { person, role }, start);
    names.push({ id: person, name: `${person} (invented)`, licence, contacts: [], withdrawn: false });
  }
  for (const [position, [section, name, rank, kennels]] of [
    ['room', 'Kitten room', 'clean-kittens', ['1', '2', '3']],
    ['isolation', 'Isolation', 'isolation', ['S4']],
  ].entries()) {
    const body = { section, name, rank, position, kennels, wear: [], leave: [], contactMinutes: 10 };
    add('section-described', `section:${section}`, body, start);
  }
  add('protocol-filed', `document:${protocol.id}`, { protocol }, start);
  add('formulary-filed', `document:${formulary.id}`, { formulary }, start);
  for (const [document, { id, version }] of [
    ['protocol', protocol],
    ['formulary', formulary],
  ]) {
    const signed = { document, id, version, signer: 'mara (invented)', licence: 'licence 0 (invented)' };
    add(
      'document-signed',
      `document:${id}`,
      { ...signed, on: '2026-05-01', statement: 'For a test; invented.' },
      start,
    );
  }
  for (const { id, section, kennel } of animals) {
    const taken = {
      label: '',
      name: `${id[0].toUpperCase()}${id.slice(1)}`,
      litter: null,
      sex: 'female',
      neutered: 'no',
      born: { earliest: '2026-02-19', latest: '2026-02-19', basis: 'known' },
      arrivedOn: '2026-05-13',
      section,
      kennel,
      // Litter mates: two marks of each are like nobody else's.
      marks: { collar: `tag “${id}”`, coat: 'tabby', mark: `white foot, shaved ${id.slice(0, 3)}`, photo: null },
    };
    add('animal-taken-in', `animal:${id}`, taken, '2026-05-13T08:00:00.000Z');
    add('animal-weighed', `animal:${id}`, { grams: 1100, entered: '1100 g' }, `${today}T12:00:00.000Z`);
  }
  const planned = animals.filter(({ line }) => line !== null);
  const lines = planned.map(({ id, line }) => ({ animal: id, schedules: [line] }));
  const plan = { on: today, sections: ['room'], treater: 'ines', holder: 'tom', startsAt: `${today}T18:00:00.000Z` };
  add('round-planned', `round:${round}`, { ...plan, lines }, `${today}T17:00:00.000Z`);
  add('round-begun', `round:${round}`, {}, `${today}T18:00:00.000Z`, 'ines');
  add('section-entered', `round:${round}`, { section: 'room', worn: [] }, `${today}T18:01:00.000Z`, 'ines');
  for (const { id } of planned) {
    const body = { round, by: 'marks', compared: ['collar', 'coat'] };
    add('animal-identified', `animal:${id}`, body, `${today}T18:02:00.000Z`, 'ines');
  }
  for (const { of, at, read, round: on } of runs) {
    const run = { run: `run-${of}`, schedule: 'felv-test', round: on };
    const drawn = { ...run, volume_ul: 300, usable: true, sample: 'whole-blood' };
    const lots = { kitType: 'felv-antigen-a', lot: null, kitLot: 'KIT-1', conjugateLot: 'KIT-1', outOfColdAt: null };
    add('sample-drawn', `animal:${of}`, drawn, at, 'ines');
    add('test-started', `animal:${of}`, { ...run, ...lots }, at, 'ines');
    if (read === null) continue;
    const seen = { control: 'seen', antigen: 'seen', invalid: 'not-seen' };
    add('test-read', `animal:${of}`, { run: run.run, seen, secondReader: null, round: on }, read, 'ines');
  }
  return { records, people: names };
}
