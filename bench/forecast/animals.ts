import { type CalendarDate, dayFromNumber, dayNumber } from '../../src/core/calendar.js';
import type { FormularyDocument } from '../../src/core/dosing/formulary.js';
import { AnimalId, type ProductId, RecordId, RunId, ScheduleId } from '../../src/core/ids.js';
import type { ProtocolDocument } from '../../src/core/protocol/document/document.js';
import type { ProtocolInput } from '../../src/core/protocol/input.js';

/** Invented animals with histories of exactly 20 records, made from a seed. */
export const recordsEach = 20;

/** Numbers from 0 to below 1, the same for the same seed (mulberry32). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Animal = ProtocolInput['animal'];
type Event = Animal['history'][number];

/** Classes that are given, more often those of long courses. */
const classes = [
  ...[
    'core-vaccine-live',
    'core-vaccine-live',
    'core-vaccine-live',
    'roundworm',
    'roundworm',
    'roundworm',
    'topical-flea',
  ],
  ...['coccidia', 'tapeworm', 'ear-mite', 'rabies-vaccine', 'felv-vaccine'],
];

export function herd(protocol: ProtocolDocument, formulary: FormularyDocument, today: CalendarDate, seed: number) {
  const random = chance(seed);
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const now = dayNumber(today);
  const given: ProductId[] = classes.flatMap((name) => {
    const found = formulary.products.find((one) => one.classes.includes(name));
    return found === undefined ? [] : [found.id];
  });
  const tests = protocol.schedules.filter((one) => one.action === 'test').map((one) => one.id);
  let count = 0;
  const record = (): RecordId => RecordId.parse(`r${count++}`);

  function eventOn(day: number): Event {
    const on = dayFromNumber(day);
    // Written out field by field, as the fold of the records makes them.
    const id = record();
    const at = `${on}T${String(whole(8, 17)).padStart(2, '0')}:30:00.000Z`;
    const kind = random();
    if (kind < 0.35) return { what: 'weighed', record: id, at, on, grams: whole(300, 4500) };
    if (kind < 0.42) {
      const schedule = tests[whole(0, tests.length - 1)] ?? ScheduleId.parse('felv-test');
      const result = random() < 0.95 ? 'negative' : 'reactive';
      return { what: 'tested', record: id, at, on, schedule, run: RunId.parse(`run${count}`), result };
    }
    if (kind < 0.47) {
      return { what: 'chipped', record: id, at, on, code: '985000000000001', confirmed: true, implanted: true };
    }
    const product = given[whole(0, given.length - 1)] ?? ('' as ProductId);
    const substandard = random() < 0.02 ? 'not-taken' : null;
    return { what: 'given', record: id, at, on, schedule: null, product, lot: null, substandard };
  }

  return (): Animal => {
    const age = random() < 0.6 ? whole(14, 170) : whole(171, 2500);
    const born = now - age;
    const unsure = random() < 0.5 ? 0 : whole(1, 20);
    const arrived = now - whole(0, Math.min(age, 90));
    const days = Array.from({ length: recordsEach - 2 }, () => whole(Math.max(born, arrived - 30), now)).sort(
      (a, b) => a - b,
    );
    const history = days.map(eventOn);
    const seen = (code: string, state: 'present' | 'absent') => ({
      record: record(),
      code,
      state,
      on: dayFromNumber(whole(arrived, now)),
      until: null,
      note: '',
    });
    return {
      id: AnimalId.parse(`a${count}`),
      born: {
        earliest: dayFromNumber(born - unsure),
        latest: dayFromNumber(born),
        basis: unsure === 0 ? 'known' : 'estimated',
      },
      arrivedOn: dayFromNumber(arrived),
      sex: random() < 0.5 ? 'female' : 'male',
      neutered: random() < 0.3 ? 'yes' : 'unknown',
      left: null,
      history,
      observations: [
        seen(['health-check', 'fleas', 'nursing', 'felv-exposed', 'ill'][whole(0, 4)] ?? 'ill', 'present'),
        seen(['ringworm-lamp', 'tapeworm', 'pregnant'][whole(0, 2)] ?? 'ill', random() < 0.5 ? 'present' : 'absent'),
      ],
      holds: [],
      chip: null,
      weighings: history.flatMap((one) =>
        one.what === 'weighed'
          ? [{ record: one.record, at: one.at, on: one.on, grams: one.grams, doubtful: false }]
          : [],
      ),
      runs: [],
      scans: [],
      orders: [],
    };
  };
}
