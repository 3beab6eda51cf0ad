import { addDays, dayOfInstant } from '../core/calendar.js';
import { setSign } from '../log/commands/animal.js';
import { type NewOrder, writeOrder } from '../log/commands/order.js';
import { answerFlag, takeFlag } from '../log/commands/shelter.js';
import { flagsIn } from '../log/flags/flags.js';
import type { BodyInput } from '../log/kinds/index.js';
import { holdsApart } from '../log/views/apart/apart.js';
import { instantOf, seconds } from './instant.js';
import type { PersonKey } from './people.js';
import { animalId, dayBack, hand, type Scene, timeOn } from './scene.js';
import { veterinarian } from './setup.js';

interface Answer {
  readonly by: PersonKey;
  readonly answer: BodyInput<'flag-answered'>['answer'];
  readonly note: string;
}

/** How the invented desk answers what came up. Codes that are not here stay open. */
const answers: Readonly<Record<string, Answer>> = {
  'test-not-valid': { by: 'ada', answer: 'done', note: 'Read too late: the alarm was not heard. Repeat planned.' },
  'test-invalid': { by: 'ada', answer: 'done', note: 'Repeat planned for the next round.' },
  'not-all-taken': {
    by: 'petra',
    answer: 'explained',
    note: 'About half was spat out. No second dose now; next one as planned.',
  },
  'other-amount': { by: 'petra', answer: 'not-a-problem', note: 'One mark too far. Watched for a day, well.' },
  'gate-passed': { by: 'petra', answer: 'explained', note: 'My word on the phone. Weighed the next morning.' },
  'test-abandoned': { by: 'ada', answer: 'done', note: 'New test on the next round.' },
  'wrong-animal': {
    by: 'ada',
    answer: 'explained',
    note: 'Card of the next kennel; noticed before anything was done.',
  },
  override: {
    by: 'ada',
    answer: 'explained',
    note: 'Talked it over with the team. The reader goes with the clean team.',
  },
  'went-back': {
    by: 'ada',
    answer: 'explained',
    note: 'Washed and changed; a forgotten kitten. The list is checked before leaving now.',
  },
  'given-twice': { by: 'petra', answer: 'explained', note: 'Wrong card, withdrawn.' },
  'given-early': { by: 'petra', answer: 'explained', note: 'Counted from the real day; the next date is right.' },
  'weight-doubtful': { by: 'ada', answer: 'done', note: 'Weighed again.' },
  'looks-ill': { by: 'petra', answer: 'done', note: 'Looked at the same day; the hold says until when.' },
  loss: { by: 'petra', answer: 'explained', note: 'Eats well; within what the scale does.' },
  'slow-gain': { by: 'petra', answer: 'explained', note: 'Seen; gains again.' },
  'no-gain': { by: 'petra', answer: 'explained', note: 'Seen; gains again.' },
};

/** At the end of a day the desk answers what came up on earlier days. */
export function answerFlags(scene: Scene, daysAgo: number): void {
  const { journal } = scene;
  const today = dayBack(scene, daysAgo);
  let at = timeOn(scene, daysAgo, '17:20');
  const open = flagsIn(journal.world(), today).filter(
    (flag) => flag.state !== 'answered' && flag.raisedAt !== '' && dayOfInstant(flag.raisedAt, journal.zone) < today,
  );
  for (const flag of open.toReversed()) {
    const answer = answers[flag.code];
    if (answer === undefined) continue;
    at += seconds(70);
    const who = hand(scene, answer.by, 'desk');
    if (flag.severity === 'stop') journal.write(who, takeFlag(flag.key, instantOf(at - seconds(40))));
    journal.write(who, answerFlag(flag.key, { answer: answer.answer, note: answer.note }, instantOf(at)));
  }
}

/** Taken on, not answered yet. */
export function takeFlags(scene: Scene, daysAgo: number, codes: readonly string[]): void {
  let at = timeOn(scene, daysAgo, '17:45');
  for (const flag of flagsIn(scene.journal.world(), dayBack(scene, daysAgo))) {
    if (flag.state !== 'open' || !codes.includes(flag.code)) continue;
    at += seconds(30);
    scene.journal.write(hand(scene, 'petra', 'desk'), takeFlag(flag.key, instantOf(at)));
  }
}

/** A sign on the kennel of each animal that has to be kept apart. */
export function hangSigns(scene: Scene, daysAgo: number): void {
  const { journal } = scene;
  let at = timeOn(scene, daysAgo, '17:35');
  const apart = new Set(
    flagsIn(journal.world(), dayBack(scene, daysAgo))
      .filter(holdsApart)
      .map(({ animal }) => animal),
  );
  for (const id of apart) {
    const animal = id === null ? undefined : journal.world().animals.get(id);
    if (animal === undefined || animal.left !== null || animal.sign !== null) continue;
    at += seconds(90);
    const { section, kennel } = animal;
    journal.write(hand(scene, 'petra', 'desk'), setSign(animal.id, { hangs: true, section, kennel }, instantOf(at)));
  }
}

/** The veterinarian orders by telephone; the desk reads it back and writes it down, and it waits for her to countersign. */
export function orderByTelephone(scene: Scene, daysAgo: number): void {
  const { journal } = scene;
  const { shelter } = journal.world();
  const vet = veterinarian(scene);
  const order: NewOrder = {
    name: 'Eye wash, left',
    treat: { is: 'words', words: 'Wipe the left eye with saline on a swab, from the inner corner outwards.' },
    starts: addDays(dayBack(scene, daysAgo), 2),
    timing: { is: 'days', every: 1 },
    ends: { is: 'after-days', days: 3 },
    why: 'Clear discharge, told by telephone.',
  };
  const at = instantOf(timeOn(scene, daysAgo, '17:55'));
  const told = { how: 'telephone', readBack: true } as const;
  const drafts = writeOrder(shelter, vet, animalId(scene, 'mallow'), order, at, told);
  journal.write(hand(scene, 'ada', 'desk'), drafts);
}
