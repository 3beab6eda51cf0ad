import type { KitType } from '../core/dosing/formulary.js';
import { type AnimalId, RunId } from '../core/ids.js';
import { resultOf, type Seen } from '../core/point-of-care/result.js';
import { windowOf } from '../core/point-of-care/window.js';
import type { DueItem } from '../core/protocol/due.js';
import { abandonTest, drawSample, startTest } from '../log/commands/round.js';
import { kitFor } from '../log/prepare/item-needs.js';
import { skip } from './give.js';
import { msOf } from './instant.js';
import { type RoundInHand, readingTime } from './round-in-hand.js';
import { castOf } from './scene.js';
import { slipOf } from './slips.js';

/** Draw blood and start the clock; the reading comes when its window opens. */
export function testItem(team: RoundInHand, animal: AnimalId, item: DueItem): void {
  const { scene, daysAgo, hand, round } = team;
  const key = castOf(scene, animal)?.key ?? null;
  const kit = kitFor(scene.journal.world(), item);
  const lot = kit === null ? null : team.shelf.kit(kit.id);
  const at = team.pass(45, 75);
  if (kit === null || lot === null || lot.of.is !== 'kit') {
    skip(team, animal, item, 'kit-missing', '', at);
    return;
  }
  const run = RunId.parse(scene.journal.newId(msOf(at)));
  const usable = slipOf(key, daysAgo, 'draw-failed') === null;
  const volume_ul = usable ? kit.sample_ul + scene.chance.whole(0, 4) * 20 : 40;
  const [sample = 'whole-blood'] = kit.samples;
  const syringeLot = team.shelf.ready()?.id ?? null;
  const drawn = { run, schedule: item.schedule, volume_ul, usable, sample, site: 'neck vein', syringeLot, round };
  scene.journal.write(hand, drawSample(animal, drawn, at));
  if (!usable) {
    skip(team, animal, item, 'draw-failed', 'Clotted at the second try; not a third time today.', team.pass(30, 50));
    return;
  }
  const startedAt = team.pass(40, 70);
  const started = {
    run,
    schedule: item.schedule,
    kitType: kit.id,
    lot: lot.id,
    kitLot: lot.lotText,
    conjugateLot: lot.of.conjugateLot,
    outOfColdAt: team.outOfCold.get(lot.id) ?? null,
    round,
  };
  scene.journal.write(hand, startTest(animal, kit, started, startedAt));
  const given = slipOf(key, daysAgo, 'test-abandoned');
  if (given !== null) {
    scene.journal.write(hand, abandonTest(animal, { run, why: 'other', note: given.reason, round }, team.pass(30, 60)));
    return;
  }
  const means = slipOf(key, daysAgo, 'test-shows')?.means ?? 'negative';
  const late = slipOf(key, daysAgo, 'read-late') !== null;
  team.running.push({ animal, run, kit, readAt: readingTime(kit, startedAt, late), seen: seenFor(kit, means) });
}

/** What the zones of a kit look like for a result, by its own table. */
export function seenFor(kit: KitType, means: 'negative' | 'reactive' | 'invalid'): Seen {
  const startedAt = '2000-01-01T00:00:00.000Z';
  const { opensAt } = windowOf(kit, startedAt);
  for (const rule of kit.readings.filter((one) => one.means === means)) {
    const seen = Object.fromEntries(
      kit.zones.map((zone) => [zone.id, rule.when[zone.id] === 'mark' ? 'seen' : 'not-seen'] as const),
    );
    if (resultOf(kit, startedAt, opensAt, seen).result === means) return seen;
  }
  throw new Error(`kit ${kit.id} has no reading that means ${means}`);
}
