import { addDays } from '../core/calendar.js';
import { LitterId } from '../core/ids.js';
import { letLeave, moveAnimal, noteObservation, takeIn } from '../log/commands/animal.js';
import { scanChip } from '../log/commands/round.js';
import { type CastAnimal, cast, departures, litters } from './cast.js';
import { broughtCode, chipAsFound } from './chips.js';
import { instantOf, type Ms, minutes, seconds } from './instant.js';
import { animalId, animalNow, dayBack, hand, type Scene, timeOn } from './scene.js';
import { weighAt } from './weigh.js';

/** Days before today on which the demo begins. */
export const firstDay = 42;

export const comersOn = (daysAgo: number): readonly CastAnimal[] => cast.filter((one) => one.cameDaysAgo === daysAgo);

/** Where an animal is put when it comes: those of the first day are at home already, the exposed go to quarantine. */
const comesTo = (one: CastAnimal): CastAnimal['home'] =>
  one.cameDaysAgo === firstDay || one.home === 'quarantine' ? one.home : 'intake';

/** Take in everybody who comes on a day: description, weight, scan for a chip, what was seen. */
export function arrive(scene: Scene, daysAgo: number): void {
  const desk = hand(scene, 'ada', 'desk', 'rosa');
  let at: Ms = timeOn(scene, daysAgo, daysAgo === firstDay ? '07:50' : '13:00');
  const next = (): string => {
    at += seconds(scene.chance.whole(30, 70));
    return instantOf(at);
  };
  let cage = 0;
  let lastLitter: string | null = null;
  for (const one of comersOn(daysAgo)) {
    if (one.litter === null || one.litter !== lastLitter) cage += 1;
    lastLitter = one.litter;
    const id = animalId(scene, one.key);
    const to = comesTo(one);
    const kennel = to === one.home ? one.kennel : `I${4 + cage}`;
    scene.journal.write(desk, takeIn(id, describe(scene, one, to, kennel), next()));
    weighAt(scene, desk, id, daysAgo, next());
    const found = one.chipped ? chipAsFound(broughtCode(cast.indexOf(one))) : null;
    const scan = { target: 'animal', occasion: 'intake', found, passes: 3, scanner: 'reader 2 (invented)' } as const;
    scene.journal.write(desk, scanChip(id, scan, next()));
    for (const seen of seenOnArrival(scene, one)) scene.journal.write(desk, noteObservation(id, seen, next()));
  }
}

function describe(scene: Scene, one: CastAnimal, section: CastAnimal['home'], kennel: string) {
  const born = addDays(scene.journal.today, -one.ageDays);
  const litter = litters.find((each) => each.key === one.litter);
  return {
    label: `D-${String(101 + cast.indexOf(one)).padStart(4, '0')}`,
    name: one.name,
    litter: litter === undefined ? null : { id: LitterId.parse(`demo-litter-${litter.key}`), name: litter.name },
    sex: one.sex,
    neutered: one.neutered,
    born: {
      earliest: addDays(born, -one.unsureDays),
      latest: addDays(born, one.unsureDays),
      basis: one.unsureDays === 0 ? ('known' as const) : ('estimated' as const),
    },
    arrivedOn: dayBack(scene, one.cameDaysAgo),
    section: scene.wards[section],
    kennel,
    marks: { collar: one.collar, coat: one.coat, mark: one.mark, photo: scene.photos[one.key] ?? null },
    notes: ['Invented animal of the demo; its chip number is invented too.', one.notes].join(' ').trim(),
  };
}

function seenOnArrival(scene: Scene, one: CastAnimal) {
  const on = dayBack(scene, one.cameDaysAgo);
  const present = (code: string, days: number | null, note: string) => ({
    code,
    state: 'present' as const,
    on,
    until: days === null ? null : addDays(on, days),
    note,
  });
  if (one.key === 'wren') return [present('nursing', null, 'Four kittens at the breast.')];
  if (one.key === 'magpie')
    return [present('pregnant', 38, 'Felt by the veterinarian; kittens expected within five weeks.')];
  if (one.litter === 'moss') {
    return [
      present('panleukopenia-exposed', 13, 'Day of arrival is day 0; free at the start of day 14 if nobody falls ill.'),
    ];
  }
  if (one.key === 'jackdaw')
    return [present('bite-observation', 9, 'Bit somebody on arrival, who has been seen to. 10 days.')];
  return [];
}

/** The morning after: out of intake to where they live. */
export function moveHome(scene: Scene, daysAgo: number): void {
  let at = timeOn(scene, daysAgo, '08:05');
  for (const one of comersOn(daysAgo + 1)) {
    if (comesTo(one) === one.home) continue;
    at += minutes(2);
    const id = animalId(scene, one.key);
    const body = { section: scene.wards[one.home], kennel: one.kennel, why: 'Settled in.' };
    scene.journal.write(hand(scene, 'ada', 'desk'), moveAnimal(id, animalNow(scene, id), body, instantOf(at)));
  }
}

export function depart(scene: Scene, daysAgo: number): void {
  let at = timeOn(scene, daysAgo, '16:10');
  for (const { key, how, note } of departures.filter((one) => one.daysAgo === daysAgo)) {
    const id = animalId(scene, key);
    const chip = scene.journal.world().animals.get(id)?.chip ?? null;
    const desk = hand(scene, 'ada', 'desk');
    const found = chip === null ? null : chipAsFound(chip.code);
    const scan = { target: 'animal', occasion: 'exit', found, passes: 2, scanner: 'reader 2 (invented)' } as const;
    scene.journal.write(desk, scanChip(id, scan, instantOf(at)));
    at += minutes(3);
    scene.journal.write(desk, letLeave(id, { how, on: dayBack(scene, daysAgo), note }, instantOf(at)));
    at += minutes(3);
  }
}
