import { type AnimalId, type LotId, RoundId } from '../core/ids.js';
import type { DueItem } from '../core/protocol/due.js';
import { acceptHandBack, beginRound, enterSection, handBack, leaveSection, planRound } from '../log/commands/round.js';
import { takeKitsOut } from '../log/commands/shelter.js';
import { kitFor } from '../log/prepare/item-needs.js';
import { type PreparedAnimal, prepareRound } from '../log/prepare/prepare.js';
import { roundView } from '../log/views/round/round.js';
import type { RoundFacts } from '../log/views/round-facts.js';
import { sectionOf } from '../log/views/shelter.js';
import { dueIn } from '../log/views/world.js';
import { instantOf, minutes } from './instant.js';
import type { Devices, PersonKey } from './people.js';
import { type RoundInHand, roundInHand } from './round-in-hand.js';
import { animalId, animalNow, dayBack, hand, type Scene, timeOn } from './scene.js';
import { type Shelf, shelfFrom } from './shelf.js';
import { visit } from './visit.js';
import type { WardKey } from './wards.js';

export interface RoundOrder {
  readonly daysAgo: number;
  readonly time: string;
  readonly sections: readonly WardKey[];
  readonly pair: readonly [PersonKey, PersonKey];
  readonly device: keyof Devices;
  /** Animals to be weighed although nothing else is due to them. */
  readonly alsoWeigh?: readonly string[];
  /** A visit back to a cleaner section at the end, with the reason given. */
  readonly goBack?: { readonly section: WardKey; readonly because: string };
  readonly note?: string;
}

/**
 * Plan a round from what is due, work it section by section from clean to sick, and hand it back. Returns null when
 * nothing is due.
 */
export function workRound(scene: Scene, order: RoundOrder): RoundId | null {
  const { journal } = scene;
  const { daysAgo } = order;
  const start = timeOn(scene, daysAgo, order.time);
  const planAt = start - minutes(55);
  const wanted = order.sections.map((key) => scene.wards[key]);
  const world = journal.world();
  const prepared = prepareRound(world, wanted, instantOf(start));
  const lines = prepared.sections.flatMap((section) => section.animals.filter((one) => one.due.length > 0));
  for (const key of order.alsoWeigh ?? []) addWeighing(scene, lines, animalId(scene, key), daysAgo);
  if (lines.length === 0) return null;

  const round = RoundId.parse(journal.newId(planAt));
  const [treater, holder] = order.pair;
  const team = hand(scene, treater, order.device, holder);
  const shelf = shelfFrom(world, prepared.on);
  const body = {
    on: dayBack(scene, daysAgo),
    sections: wanted,
    treater: scene.people[treater],
    holder: scene.people[holder],
    startsAt: instantOf(start),
    lines: lines.map(({ animal, due }) => ({ animal: animal.id, schedules: due.map((item) => item.schedule) })),
  };
  journal.write(hand(scene, 'ada', 'desk'), planRound(world.shelter, round, body, instantOf(planAt)));
  const work = roundInHand(
    { scene, round, on: prepared.on, daysAgo, hand: team, holder: scene.people[holder], shelf },
    start,
  );
  warmKits(work, lines, instantOf(start - minutes(45)));
  journal.write(team, beginRound(round, work.pass(20, 60)));

  for (const section of journal.world().shelter.sections) {
    const here = lines.filter(({ animal }) => animalNow(scene, animal.id).section === section.id);
    if (here.length > 0) workSection(work, section.id, here);
  }
  if (order.goBack !== undefined) workSection(work, scene.wards[order.goBack.section], [], order.goBack.because);
  const counts = roundView(journal.world(), round)?.counts;
  if (counts === undefined) throw new Error('the round has gone from the log');
  const { done, notDone, abnormal } = counts;
  journal.write(
    team,
    handBack(round, { done, notDone, abnormal, note: order.note ?? '' }, work.running.length, work.pass(200, 400)),
  );
  return round;
}

function workSection(work: RoundInHand, section: string, here: readonly PreparedAnimal[], back = ''): void {
  const { scene, round, hand: team } = work;
  const { shelter } = scene.journal.world();
  const ward = sectionOf(shelter, section);
  if (ward === null) throw new Error(`no section ${section}`);
  const entered = { section, worn: [...ward.wear], wentBackBecause: back };
  scene.journal.write(team, enterSection(shelter, factsOf(scene, round), entered, work.pass(60, 150)));
  for (const { animal, due } of here) visit(work, animalNow(scene, animal.id), due);
  work.waitForTests();
  const cleaned = { section, cleaned: [...ward.leave] };
  scene.journal.write(team, leaveSection(round, cleaned, work.running.length, work.pass(60, 150)));
}

function factsOf(scene: Scene, round: RoundId): RoundFacts {
  const facts = scene.journal.world().shelter.rounds.get(round);
  if (facts === undefined) throw new Error(`no round ${round}`);
  return facts;
}

/** Tests out of the cold early enough to be warm, as many of each box as the round will use. */
function warmKits(work: RoundInHand, lines: readonly PreparedAnimal[], at: string): void {
  const { scene, round, hand: team } = work;
  const world = scene.journal.world();
  const wanted = lines.flatMap(({ due }) => due.filter((item) => item.action === 'test'));
  const counts = new Map<LotId, number>();
  const trial: Shelf = shelfFrom(world, work.on);
  for (const item of wanted) {
    const kit = kitFor(world, item);
    const lot = kit === null ? null : trial.kit(kit.id);
    if (lot !== null) counts.set(lot.id, (counts.get(lot.id) ?? 0) + 1);
  }
  for (const [lot, count] of counts) {
    scene.journal.write(team, takeKitsOut(lot, { count, round }, at));
    work.outOfCold.set(lot, at);
  }
}

function addWeighing(scene: Scene, lines: PreparedAnimal[], id: AnimalId, daysAgo: number): void {
  const animal = animalNow(scene, id);
  const item = dueIn(scene.journal.world(), animal, dayBack(scene, daysAgo)).find((one) => one.action === 'weigh');
  if (item === undefined) return;
  const before = lines.findIndex((one) => one.animal.id === id);
  const due: DueItem[] = [item, ...(lines[before]?.due ?? []).filter((one) => one.action !== 'weigh')];
  const line = { animal, due, waiting: [], weighFirst: false };
  if (before < 0) lines.push(line);
  else lines[before] = line;
}

/** The desk looks through a round that came back and takes it over. */
export function acceptRound(scene: Scene, round: RoundId, daysAgo: number, time: string): void {
  const at = instantOf(timeOn(scene, daysAgo, time));
  scene.journal.write(hand(scene, 'ada', 'desk'), acceptHandBack(factsOf(scene, round), 'Looked through.', at));
}
