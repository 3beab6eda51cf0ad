import { RoundId, SectionId } from '../../../core/ids.js';
import { type DrawUp, drawUpsFor, wantedOfRound } from '../../../log/prepare/draw-ups.js';
import { prepareRound } from '../../../log/prepare/prepare.js';
import type { World } from '../../../log/views/world.js';

/** What the sheet is for: a round that is laid down, or sections that are being prepared. */
export const ofRound = (round: string): string => `/drawup/${encodeURIComponent(`round-${round}`)}`;
export const ofSections = (sections: readonly string[]): string =>
  `/drawup/${encodeURIComponent(`sections-${sections.join(',')}`)}`;

/** The draw-ups that a path names, in the order of the round. */
export function drawUpsOf(world: World, from: string, now: string): DrawUp[] {
  if (from.startsWith('round-')) {
    const round = RoundId.safeParse(from.slice('round-'.length));
    return round.success ? drawUpsFor(world, wantedOfRound(world, round.data), now, round.data) : [];
  }
  const names = from.replace(/^sections-/, '').split(',');
  const sections = names.flatMap((name) => {
    const section = SectionId.safeParse(name);
    return section.success ? [section.data] : [];
  });
  const wanted = prepareRound(world, sections, now).sections.flatMap(({ animals }) =>
    animals.map(({ animal, due }) => ({ animal: animal.id, schedules: due.map((item) => item.schedule) })),
  );
  return drawUpsFor(world, wanted, now);
}
