import type { Animal } from '../core/animal/animal.js';
import type { DueItem } from '../core/protocol/due.js';
import { identify, scanChip } from '../log/commands/round.js';
import { productFor } from '../log/prepare/item-needs.js';
import { weightUsable } from '../log/views/doses/weight-for-dose.js';
import { scheduleNamed } from '../log/views/due/schedules.js';
import { chipAsFound } from './chips.js';
import { giveItem, skip } from './give.js';
import { implantItem } from './implant.js';
import type { RoundInHand } from './round-in-hand.js';
import { animalId, animalNow, castOf } from './scene.js';
import { isTold, type Part, partOf, slipOf } from './slips.js';
import { testItem } from './test-blood.js';
import { weighOnRound } from './weigh.js';

/** One animal of the round: made sure of, weighed if needed, then what is due in the order of one visit. */
export function visit(team: RoundInHand, animal: Animal, items: readonly DueItem[]): void {
  const { scene, daysAgo } = team;
  const world = scene.journal.world();
  const key = castOf(scene, animal.id)?.key ?? null;
  makeSure(team, animal);

  const refused = slipOf(key, daysAgo, 'not-given');
  const noScale = slipOf(key, daysAgo, 'stop-passed');
  const asked = items.find((item) => item.action === 'weigh');
  const byWeight = items.some((item) => item.action === 'give' && (productFor(world, item)?.needsWeight ?? false));
  const fresh = weightUsable(world.shelter, animal, team.pass(1, 5), team.on);
  if (noScale !== null && asked !== undefined) {
    skip(team, animal.id, asked, 'other', 'No battery for the scale.', team.pass(10, 30));
  } else if (asked !== undefined && refused?.parts.includes('weighing') === true) {
    skip(team, animal.id, asked, refused.reason, refused.note, team.pass(10, 30));
  } else if (asked !== undefined || (refused === null && byWeight && !fresh)) {
    weighOnRound(team, animal.id);
  }

  for (const item of items) {
    const schedule = scheduleNamed(world.shelter, item.schedule);
    const part = schedule === null ? null : partOf(schedule);
    if (item.action === 'weigh') continue;
    if (refused !== null && part !== null && refused.parts.includes(part)) {
      skip(team, animal.id, item, refused.reason, refused.note, team.pass(10, 30));
    } else if (refused === null && !isTold(key) && skipsByChance(team, part)) {
      skip(team, animal.id, item, team.scene.chance.pick(excuses), '', team.pass(10, 30));
    } else if (item.action === 'give') giveItem(team, animal.id, item, part);
    else if (item.action === 'test') testItem(team, animal.id, item);
    else if (item.action === 'chip') implantItem(team, animal.id, item);
  }
}

const excuses = ['refused-or-escaped', 'ran-out-of-time', 'animal-too-stressed'] as const;

/** Now and then something is not done; not in the last days, whose state is told by the script alone. */
const skipsByChance = (team: RoundInHand, part: Part | null): boolean =>
  team.daysAgo > 7 && part !== null && part !== 'weighing' && team.scene.chance.percent(3);

function makeSure(team: RoundInHand, animal: Animal): void {
  const { scene, hand, round, daysAgo } = team;
  const { write } = scene.journal;
  const key = castOf(scene, animal.id)?.key ?? null;
  const first = slipOf(key, daysAgo, 'other-animal-first');
  if (first !== null) {
    // The card of this cat, the cat of the next kennel: the number says so, and they start again.
    const other = animalNow(scene, animalId(scene, first.other)).chip;
    if (other !== null) write(hand, scanChip(animal.id, identifying(team, other.code), team.pass(20, 45)));
  }
  const at = team.pass(20, 45);
  const slip = slipOf(key, daysAgo, 'override');
  if (slip !== null) {
    const { reason, note } = slip;
    write(hand, identify(animal.id, { round, by: 'override', compared: [], reason, note }, at));
    return;
  }
  if (animal.chip?.confirmed === true) {
    write(hand, [
      ...scanChip(animal.id, identifying(team, animal.chip.code), at),
      ...identify(animal.id, { round, by: 'chip', compared: ['chip'] }, at),
    ]);
    return;
  }
  const { collar, mark } = animal.marks;
  const compared = [collar === '' ? 'sex' : 'collar', 'coat', ...(mark.startsWith('none') ? [] : ['mark'])];
  write(hand, identify(animal.id, { round, by: 'marks', compared }, at));
}

const identifying = ({ round }: RoundInHand, code: string) => ({
  target: 'animal' as const,
  occasion: 'identify' as const,
  found: chipAsFound(code),
  passes: 1,
  typed: false,
  scanner: 'reader 1 (invented)',
  round,
});
