import type { AnimalId } from '../core/ids.js';
import type { DueItem } from '../core/protocol/due.js';
import { implantChip, scanChip } from '../log/commands/round.js';
import { chipAsFound, strayCode } from './chips.js';
import { skip } from './give.js';
import { theOne } from './journal.js';
import type { RoundInHand } from './round-in-hand.js';
import { castOf } from './scene.js';
import { slipOf } from './slips.js';

const scanner = 'reader 1 (invented)';

/** Scan the animal, scan the pack, implant, scan again. */
export function implantItem(team: RoundInHand, animal: AnimalId, item: DueItem): void {
  const { scene, daysAgo, hand, round } = team;
  const chip = team.shelf.chip();
  if (chip === null) {
    skip(team, animal, item, 'product-missing', 'No chips on the cart.', team.pass(20, 40));
    return;
  }
  const { write } = scene.journal;
  const scan = { scanner, typed: false, round };
  write(
    hand,
    scanChip(animal, { ...scan, target: 'animal', occasion: 'before', found: null, passes: 3 }, team.pass(25, 45)),
  );
  const found = chipAsFound(chip.code);
  const pack = theOne(
    write(hand, scanChip(animal, { ...scan, target: 'pack', occasion: 'pack', found, passes: 1 }, team.pass(10, 20))),
  );
  const body = {
    code: chip.code,
    site: 'between-shoulder-blades' as const,
    packScan: pack.id,
    lot: chip.lot.id,
    round,
  };
  write(hand, implantChip(animal, body, team.pass(40, 70)));
  const differs = slipOf(castOf(scene, animal)?.key ?? null, daysAgo, 'chip-after-differs') !== null;
  const after = differs ? chipAsFound(strayCode) : found;
  write(
    hand,
    scanChip(
      animal,
      { ...scan, target: 'animal', occasion: 'after', found: after, passes: 2, leftToDesk: differs },
      team.pass(15, 30),
    ),
  );
}
