import type { Raise } from '../flag.js';
import type { LogRecord } from '../record.js';
import type { Ground } from '../views/ground.js';
import { placeSaid } from '../views/place.js';

type Placed = LogRecord<'animal-taken-in' | 'animal-moved'>;

/**
 * Moves that crossed another one: the place they say they began at is not where the log had the animal then. The move
 * stands. What its predecessor was before it was corrected is no crossing: that was what the person could know.
 */
export function placeFlags(
  ground: Ground,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  raise: Raise,
): void {
  const stays = standing.filter((record): record is Placed => places(record));
  for (const [index, record] of stays.entries()) {
    const before = stays[index - 1];
    if (record.kind !== 'animal-moved' || record.body.from === null || before === undefined) continue;
    const { from, section, kennel } = record.body;
    const known = [before, ...records.filter((one) => places(one) && saidOf(one, before))] as readonly Placed[];
    if (known.some(({ body }) => body.section === from.section && body.kennel === from.kennel)) continue;
    raise('moved-crossed', 'attention', record, ['supervisor'], {
      from: placeSaid(ground, from.section, from.kennel),
      to: placeSaid(ground, section, kennel),
      had: placeSaid(ground, before.body.section, before.body.kennel),
    });
  }
}

const places = (record: LogRecord): record is Placed =>
  record.kind === 'animal-taken-in' || record.kind === 'animal-moved';

/** The same stay as it was first written, or as it was put right. */
const saidOf = (one: LogRecord, stay: LogRecord): boolean => one.id === stay.id || one.corrects === stay.id;
