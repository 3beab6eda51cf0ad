import type { CalendarDate } from '../core/calendar.js';
import type { DeviceId, PersonId, ShelterId } from '../core/ids.js';
import type { Outcome } from '../core/said.js';
import { type Draft, type LogRecord, stamp } from '../log/record.js';
import { applyToWorld, emptyWorld, type World } from '../log/views/world.js';
import { instantOf, type Ms, msOf, seconds } from './instant.js';

/** Who writes, with whom, on which device. */
export interface Hand {
  readonly by: PersonId;
  readonly with?: PersonId;
  readonly device: DeviceId;
}

/** The log of the invented shelter while it is being written. */
export interface Journal {
  readonly shelter: ShelterId;
  readonly zone: string;
  readonly today: CalendarDate;
  /** Write drafts down, by default a few seconds after they happened. Refused drafts are a fault of the script. */
  readonly write: (hand: Hand, drafts: readonly Draft[] | Outcome<Draft[]>, writtenAt?: Ms) => LogRecord[];
  /** Everything written so far, folded. */
  readonly world: () => World;
  readonly newId: (at: Ms) => string;
  /** All records in the order in which they were written down. */
  readonly records: () => LogRecord[];
}

export interface JournalOptions {
  readonly shelter: ShelterId;
  readonly zone: string;
  readonly today: CalendarDate;
  readonly now: string;
  readonly newId: (at: Ms) => string;
}

/**
 * Open an empty log. Each device counts its own records and its clock never goes back; nothing is written after `now`.
 * The world is folded only when somebody looks, so that a whole visit costs one fold.
 */
export function openJournal(options: JournalOptions): Journal {
  const { shelter, zone, today, newId } = options;
  const all: LogRecord[] = [];
  const devices = new Map<DeviceId, { seq: number; at: Ms }>();
  let world: World = emptyWorld;
  let folded = 0;
  const end = msOf(options.now);

  return {
    shelter,
    zone,
    today,
    newId,
    write: (hand, given, writtenAt) => {
      const drafts = draftsOf(given);
      const device = devices.get(hand.device) ?? { seq: 0, at: 0 };
      const happened = Math.max(...drafts.map((draft) => msOf(draft.happenedAt)));
      const at = Math.max(device.at, writtenAt ?? happened + seconds(4));
      if (at < happened) throw new Error(`the demo would write at ${instantOf(at)} what happens later`);
      if (at > end) throw new Error(`the demo would write at ${instantOf(at)}, after now`);
      const records = stamp(drafts, {
        ...hand,
        shelter,
        zone,
        nextSeq: device.seq + 1,
        now: instantOf(at),
        newId: () => newId(at),
      });
      devices.set(hand.device, { seq: device.seq + records.length, at });
      all.push(...records);
      return records;
    },
    world: () => {
      if (folded < all.length) world = applyToWorld(world, all.slice(folded));
      folded = all.length;
      return world;
    },
    // A stable sort: what one device wrote in one moment stays in its order.
    records: () => all.toSorted((a, b) => (a.recordedAt < b.recordedAt ? -1 : a.recordedAt > b.recordedAt ? 1 : 0)),
  };
}

function draftsOf(given: readonly Draft[] | Outcome<Draft[]>): readonly Draft[] {
  if (!('ok' in given)) return given;
  if (!given.ok) throw new Error(`a command of the demo was refused: ${JSON.stringify(given.why)}`);
  return given.value;
}

/** The only record of a list that must have exactly one. */
export function theOne(records: readonly LogRecord[]): LogRecord {
  const [only] = records;
  if (only === undefined || records.length > 1) throw new Error(`one record was expected, ${records.length} came`);
  return only;
}
