import type { Animal } from '../../src/core/animal/animal.js';
import { addDays, type CalendarDate } from '../../src/core/calendar.js';
import type { DueItem } from '../../src/core/protocol/due.js';
import type { Flag } from '../../src/log/flag.js';
import { flagsIn } from '../../src/log/flags/flags.js';
import { weightUsable } from '../../src/log/views/doses/weight-for-dose.js';
import { buildWorld, dueIn, inCare, type World } from '../../src/log/views/world.js';
import type { DemoAt } from './demo.js';

/** What there is to look for in the invented shelter. */
export interface Story {
  readonly world: World;
  readonly flags: readonly Flag[];
  readonly animal: (name: string) => Animal;
  readonly due: (name: string, part: string) => DueItem;
  readonly flagged: (code: string, name?: string) => Flag[];
  /** Everything that should be there and is not, as short sentences; empty when the story is whole. */
  readonly missing: () => string[];
}

export function storyOf({ records, today, now }: DemoAt): Story {
  const world = buildWorld(records);
  const flags = flagsIn(world, today);
  const animal = (name: string): Animal => {
    const found = [...world.animals.values()].find((one) => one.name === name);
    if (found === undefined) throw new Error(`no ${name} in the demo`);
    return found;
  };
  const due = (name: string, part: string): DueItem => {
    const found = dueIn(world, animal(name), today).find((item) => item.schedule.includes(part));
    if (found === undefined) throw new Error(`nothing about ${part} for ${name}`);
    return found;
  };
  const flagged = (code: string, name?: string): Flag[] =>
    flags.filter((flag) => flag.code === code && (name === undefined || flag.animal === animal(name).id));
  const story = { world, flags, animal, due, flagged };
  return { ...story, missing: () => missing(story, today, now) };
}

function missing(story: Omit<Story, 'missing'>, today: CalendarDate, now: string): string[] {
  const { world, animal, due, flagged } = story;
  const all = inCare(world).flatMap((one) => dueIn(world, one, today));
  const statuses = (part: string): Set<string> =>
    new Set(all.filter((item) => item.schedule.includes(part)).map((item) => item.status));
  const open = (code: string, name?: string): boolean => flagged(code, name).some((flag) => flag.state === 'open');
  const answered = (code: string): boolean => flagged(code).some((flag) => flag.state === 'answered');
  const held = (name: string, part: string, code: string): boolean => {
    const { status, hold } = due(name, part);
    return status === 'on-hold' && hold?.code === code && hold.until !== null && hold.until >= today;
  };
  const alike = (a: Animal, b: Animal): boolean =>
    a.litter?.id === b.litter?.id && a.marks.coat === b.marks.coat && a.marks.mark === b.marks.mark && a.sex === b.sex;
  const exposed = animal('Haircap').observations.find((one) => one.code === 'panleukopenia-exposed');
  const rounds = [...world.shelter.rounds.values()];

  const wanted: Record<string, boolean> = {
    'vaccines due, overdue, not yet, complete': ['due', 'overdue', 'not-yet', 'complete'].every((one) =>
      statuses('core-vaccine').has(one),
    ),
    'wormers due, overdue and not yet': ['due', 'overdue', 'not-yet'].every((one) => statuses('roundworm').has(one)),
    'weighings due and overdue': ['due', 'overdue'].every((one) => statuses('weighing').has(one)),
    'a test due': statuses('felv-test').has('due'),
    'a chip due': statuses('chip').has('due'),
    'a flea treatment due': due('Lapwing', 'flea').status === 'due',
    'a kitten whose vaccine was missed three times': due('Yarrow', 'core-vaccine').status === 'overdue',
    'a hold for fever with an end': held('Fieldfare', 'core-vaccine', 'fever'),
    'a hold for a pregnant queen with an end': held('Magpie', 'core-vaccine', 'pregnant'),
    'a hold until an age': held('Knot', 'flea', 'too-young'),
    'a weight too old to dose on': !weightUsable(world.shelter, animal('Twite'), now, today),
    '... of a kitten due a dose by weight': due('Twite', 'roundworm').status === 'due',
    'an invalid test, open': open('test-invalid', 'Hyssop'),
    '... to be repeated': ['due', 'overdue'].includes(due('Hyssop', 'felv-test').status),
    'a reactive test, open': open('reactive', 'Borage'),
    '... and kept apart': animal('Borage').section === 'isolation',
    'a chip that reads otherwise': open('chip-differs', 'Rue'),
    'a kit box that expires soon': flagged('lot-expires-soon').some((flag) =>
      String(flag.why.with?.lot).includes('KIT'),
    ),
    'an expired vial on the shelf': open('lot-expired'),
    '... and a dose from it, taken on by a person': flagged('expired-lot', 'Lovage').some(
      (one) => one.state === 'taken',
    ),
    'a dose given twice by two people': open('given-twice', 'Kestrel'),
    'a doubtful weight': open('weight-doubtful', 'Heron'),
    'an override of identity': open('override', 'Vetch'),
    'a kitten that loses weight': open('weight-loss', 'Sanderling'),
    'two look-alikes told apart by the collar':
      alike(animal('Basil'), animal('Dill')) && animal('Basil').marks.collar !== animal('Dill').marks.collar,
    'an adopted animal': animal('Tansy').left?.how === 'adopted',
    'an animal without a place, from a file': open('no-section', 'Starling') && world.shelter.files.length === 1,
    'a quarantine clock that runs': exposed?.until != null && exposed.until >= today && exposed.on < today,
    'answered flags': ['test-not-valid', 'test-abandoned', 'other-amount', 'not-all-taken', 'gate-passed'].every(
      answered,
    ),
    'more answered flags': ['went-back', 'wrong-animal', 'override'].every(answered),
    'a round handed back and not yet accepted': rounds.some((one) => one.handedBack !== null && one.accepted === null),
    'rounds accepted': rounds.filter((one) => one.accepted !== null).length > 20,
    'no round of today': rounds.every((one) => one.plan.on < today),
    'a protocol waiting for its signature': world.shelter.protocols.some((one) => one.state === 'draft'),
    'a standing order in force': (world.shelter.formulary?.standingOrders.length ?? 0) > 0,
    'arrivals of yesterday': inCare(world).some((one) => one.arrivedOn === addDays(today, -1)),
  };
  return Object.entries(wanted)
    .filter(([, there]) => !there)
    .map(([what]) => what);
}
