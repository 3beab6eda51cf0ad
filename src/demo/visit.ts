import type { Animal } from '../core/animal/animal.js';
import type { DueItem } from '../core/protocol/due.js';
import { identify, scanChip } from '../log/commands/round.js';
import { weightUsable } from '../log/views/dose.js';
import { productFor } from '../log/views/prepare.js';
import { scheduleNamed } from '../log/views/schedules.js';
import { chipAsFound } from './chips.js';
import { giveItem, skip } from './give.js';
import { implantItem } from './implant.js';
import type { RoundInHand } from './round-in-hand.js';
import { castOf } from './scene.js';
import { type Part, partOf, slipOf } from './slips.js';
import { testItem } from './test-blood.js';
import { weighOnRound } from './weigh.js';

/** One animal of the round: made sure of, weighed if needed, then what is due in the order of one visit. */
export function visit(team: RoundInHand, animal: Animal, items: readonly DueItem[]): void {
  const { scene, daysAgo } = team;
  const world = scene.journal.world();
  const key = castOf(scene, animal.id)?.key ?? null;
  makeSure(team, animal);

  const refused = slipOf(key, daysAgo, 'not-given');
  const byWeight = items.some((item) => item.action === 'give' && (productFor(world, item)?.needsWeight ?? false));
  const weigh = items.some((item) => item.action === 'weigh') || byWeight;
  const fresh = weightUsable(world.shelter, animal, team.pass(1, 5), team.on);
  if (refused === null && weigh && (!fresh || items.some((item) => item.action === 'weigh'))) {
    weighOnRound(team, animal.id);
  }

  for (const item of items) {
    const schedule = scheduleNamed(world.shelter, item.schedule);
    const part = schedule === null ? null : partOf(schedule);
    if (item.action === 'weigh') continue;
    if (refused !== null && part !== null && refused.parts.includes(part)) {
      skip(team, animal.id, item, refused.reason, refused.note, team.pass(10, 30));
    } else if (refused === null && skipsByChance(team, part)) {
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
  const slip = slipOf(castOf(scene, animal.id)?.key ?? null, daysAgo, 'override');
  const at = team.pass(20, 45);
  if (slip !== null) {
    const reason = animal.chip === null ? ('known-to-the-team' as const) : ('no-reader' as const);
    scene.journal.write(
      hand,
      identify(animal.id, { round, by: 'override', compared: [], reason, note: slip.note }, at),
    );
    return;
  }
  if (animal.chip?.confirmed === true) {
    const found = chipAsFound(animal.chip.code);
    const scan = { target: 'animal', occasion: 'identify', found, passes: 1, typed: false, round } as const;
    scene.journal.write(hand, [
      ...scanChip(animal.id, { ...scan, scanner: 'reader 1 (invented)' }, at),
      ...identify(animal.id, { round, by: 'chip', compared: ['chip'] }, at),
    ]);
    return;
  }
  const { collar, mark } = animal.marks;
  const compared = [collar === '' ? 'kennel card' : 'collar', 'coat', ...(mark.startsWith('none') ? [] : ['mark'])];
  scene.journal.write(hand, identify(animal.id, { round, by: 'marks', compared }, at));
}
