import { addDays, daysBetween } from '../core/calendar.js';
import { AnimalId } from '../core/ids.js';
import { describeAnimal, liftHold, moveAnimal, noteObservation, placeHold } from '../log/commands/animal.js';
import { bringIn } from '../log/commands/bring-in.js';
import { give } from '../log/commands/round.js';
import type { LogRecord } from '../log/record.js';
import { scheduleNamed } from '../log/views/due/schedules.js';
import { cast } from './cast.js';
import { instantOf, minutes } from './instant.js';
import { animalId, animalNow, dayBack, hand, type Scene, timeOn } from './scene.js';
import { partOf } from './slips.js';
import type { WardKey } from './wards.js';

/** What is seen of single animals: code, whether it is there, and for how many days it counts. */
const sightings: readonly {
  readonly daysAgo: number;
  readonly key: string;
  readonly code: string;
  readonly days: number | null;
  readonly note: string;
}[] = [
  {
    daysAgo: 8,
    key: 'comfrey',
    code: 'ringworm-suspected',
    days: null,
    note: 'Bare round patch on the ear; sample sent to an invented laboratory.',
  },
  { daysAgo: 5, key: 'redwing', code: 'ill', days: 10, note: 'Sneezes, eats, no fever.' },
  { daysAgo: 3, key: 'fieldfare', code: 'fever', days: 5, note: '40.2 °C this morning. Looked at daily.' },
  { daysAgo: 1, key: 'lapwing', code: 'fleas', days: null, note: 'Flea dirt in the comb.' },
];

const moves: readonly {
  readonly daysAgo: number;
  readonly key: string;
  readonly to: WardKey;
  readonly kennel: string;
  readonly why: string;
}[] = [
  { daysAgo: 8, key: 'comfrey', to: 'isolation', kennel: 'S3', why: 'Ringworm suspected.' },
  { daysAgo: 5, key: 'redwing', to: 'isolation', kennel: 'S2', why: 'Sneezing.' },
  { daysAgo: 3, key: 'fieldfare', to: 'isolation', kennel: 'S1', why: 'Fever.' },
  { daysAgo: 1, key: 'borage', to: 'isolation', kennel: 'S4', why: 'Kept apart until the medical team has confirmed.' },
];

export function whatIsSeen(scene: Scene, daysAgo: number): void {
  const on = dayBack(scene, daysAgo);
  const rosa = hand(scene, 'rosa', 'desk');
  let at = timeOn(scene, daysAgo, '16:35');
  for (const { key, code, days, note } of sightings.filter((one) => one.daysAgo === daysAgo)) {
    const body = { code, state: 'present' as const, on, until: days === null ? null : addDays(on, days), note };
    scene.journal.write(rosa, noteObservation(animalId(scene, key), body, instantOf(at)));
    at += minutes(4);
  }
  for (const { key, to, kennel, why } of moves.filter((one) => one.daysAgo === daysAgo)) {
    const body = { section: scene.wards[to], kennel, why };
    scene.journal.write(
      rosa,
      moveAnimal(animalId(scene, key), animalNow(scene, animalId(scene, key)), body, instantOf(at)),
    );
    at += minutes(4);
  }
}

/** Litters too young for the flea product, by label and by the standing order: the veterinarian holds it until then. */
export function holdFlea(scene: Scene, daysAgo: number): void {
  const { shelter } = scene.journal.world();
  const flea = shelter.protocol?.schedules.find((schedule) => partOf(schedule) === 'flea');
  if (flea === undefined) return;
  let at = timeOn(scene, daysAgo, '13:25');
  for (const one of cast.filter((each) => each.cameDaysAgo === daysAgo)) {
    const born = addDays(scene.journal.today, one.unsureDays - one.ageDays);
    const fourWeeks = addDays(born, 28);
    const from = dayBack(scene, daysAgo);
    if (daysBetween(from, fourWeeks) <= 0) continue;
    const body = {
      schedules: [flea.id],
      code: 'too-young',
      from,
      until: addDays(fourWeeks, -1),
      owner: scene.people.petra,
      note: 'Under 4 weeks: comb and bath only.',
    };
    scene.journal.write(hand(scene, 'petra', 'desk'), placeHold(animalId(scene, one.key), body, instantOf(at)));
    at += minutes(1);
  }
}

/** Somebody at the desk, who does not know that the round has been there, gives the same wormer again. */
export function giveTwice(scene: Scene, daysAgo: number, key: string): void {
  const { journal } = scene;
  const id = animalId(scene, key);
  const { shelter, bySubject } = journal.world();
  const given = (bySubject.get(`animal:${id}`) ?? []).filter(
    (record): record is LogRecord<'treatment-given'> => record.kind === 'treatment-given',
  );
  const first = given.findLast(({ body }) => {
    const schedule = body.schedule === null ? null : scheduleNamed(shelter, body.schedule);
    return schedule !== null && partOf(schedule) === 'worm';
  });
  if (first === undefined) throw new Error(`${key} has had no wormer yet`);
  const at = instantOf(timeOn(scene, daysAgo, '15:50'));
  const body = { ...first.body, round: null, note: 'Given at the desk; the round had not come back yet.' };
  journal.write(hand(scene, 'rosa', 'phoneB', 'idris'), give(id, body, at));
}

const fileRows: readonly {
  readonly name: string;
  readonly key: string;
  readonly ageDays: number;
  readonly grams: number | null;
  readonly to: WardKey | null;
  readonly kennel: string;
}[] = [
  { name: 'Pipit', key: 'X-0031', ageDays: 400, grams: 3400, to: 'foster', kennel: 'F4' },
  { name: 'Dunnock', key: 'X-0032', ageDays: 620, grams: null, to: 'foster', kennel: 'F4' },
  // The file says "van 2", which is no section of this shelter.
  { name: 'Starling', key: 'X-0033', ageDays: 510, grams: 4150, to: null, kennel: 'van 2' },
];

/** Three cats out of the list of an invented shelter that is closing; the place of one is not known. */
export function bringInFile(scene: Scene, daysAgo: number): void {
  const at = timeOn(scene, daysAgo, '15:05');
  const digest = scene.chance.hex(64);
  const arrivedOn = dayBack(scene, daysAgo);
  const rows = fileRows.map(({ name, key, ageDays, grams, to, kennel }, index) => {
    const born = addDays(scene.journal.today, -ageDays);
    return {
      animal: AnimalId.parse(scene.journal.newId(at)),
      takenIn: {
        label: key,
        name,
        litter: null,
        sex: 'unknown' as const,
        neutered: 'unknown' as const,
        born: { earliest: addDays(born, -180), latest: addDays(born, 180), basis: 'estimated' as const },
        arrivedOn,
        section: to === null ? null : scene.wards[to],
        kennel,
        marks: { collar: '', coat: 'tabby', mark: '', photo: null },
        notes: 'Invented animal of the demo, from an invented file.',
        origin: { file: digest, row: index + 2, key },
      },
      weight: grams === null ? null : { grams, entered: `${grams / 1000} kg` },
      chip: null,
    };
  });
  const columns = { Name: 'name', Number: 'label', 'Age (months)': 'age', Weight: 'weight', Place: 'section' };
  const file = { name: 'invented-cats.csv', digest, accepted: rows.length, doubtful: 1, refused: 0, columns };
  scene.journal.write(hand(scene, 'ada', 'desk'), bringIn(rows, file, instantOf(at)));
}

/** Small things of the weeks: a new collar, a kitten's sex seen at last, a wait of three days that was lifted. */
export function changeSmallThings(scene: Scene, daysAgo: number): void {
  const { write, world } = scene.journal;
  const at = instantOf(timeOn(scene, daysAgo, '15:02'));
  if (daysAgo === 9) {
    const id = animalId(scene, 'hazel');
    const marks = world().animals.get(id)?.marks;
    if (marks !== undefined) {
      const body = {
        marks: { ...marks, collar: 'pink' },
        notes: 'Invented animal of the demo. Coral collar lost, now pink.',
      };
      write(hand(scene, 'mina', 'phoneB'), describeAnimal(id, body, at));
    }
  }
  if (daysAgo === 6) {
    write(hand(scene, 'rosa', 'phoneB'), describeAnimal(animalId(scene, 'brambling'), { sex: 'female' }, at));
  }
  const gorse = animalId(scene, 'gorse');
  if (daysAgo === 20) {
    const from = dayBack(scene, daysAgo);
    const body = {
      schedules: 'all' as const,
      code: 'waits',
      from,
      until: addDays(from, 5),
      owner: scene.people.petra,
      note: 'Vomited twice; eats again.',
    };
    write(hand(scene, 'petra', 'desk'), placeHold(gorse, body, at));
  }
  if (daysAgo === 17) {
    for (const { record } of world().animals.get(gorse)?.holds ?? []) {
      write(hand(scene, 'petra', 'desk'), liftHold(gorse, record, 'Well for two days.', at));
    }
  }
}
