import { type AnimalId, DeviceId, type PersonId } from '../../core/ids.js';
import type { InParts } from '../../core/in-parts.js';
import { no, type Outcome, ok, said } from '../../core/said.js';
import { type AtSigning, admission, asksAtSigning } from '../../log/admit.js';
import { type ChipEntry, noChips, withChips } from '../../log/chip-index.js';
import { Measured } from '../../log/device-clock.js';
import { type Draft, type LogRecord, type Stamp, stamp } from '../../log/record.js';
import type { Shelter } from '../../log/views/shelter.js';
import { applyToWorld, emptyWorld, type World } from '../../log/views/world.js';
import {
  countDamaged,
  type Db,
  findHere,
  isOfNewerProgram,
  onTakenAway,
  readMeta,
  unreadIn,
  withinTime,
  writeMeta,
} from '../db.js';
import { markNamed } from '../photos/held.js';
import { type Watched, watched } from '../snapshot.js';
import { asideOf } from './aside.js';
import { type Away, awayOf } from './away-here.js';
import { readMark, removeMark, writeMark } from './memory-mark.js';
import { makePeople, type PeopleHere } from './people.js';
import { readWorld } from './read-world.js';
import { inSlices, noRest, type Rest } from './slices.js';
import { opening, type Status, sayIn, type Who } from './status.js';

/** A save that has not been confirmed by then has failed; the person is told and nothing was kept. */
const saveLimit_ms = 5_000;
/** More for each record of a large batch, such as a file of animals. */
const saveMore_ms = 5;

export interface AppendOptions {
  /** Second person, when it is not the partner chosen for this device. */
  readonly with?: PersonId;
}

export interface LocalStore {
  readonly world: Watched<World>;
  readonly status: Watched<Status>;
  readonly who: Watched<Who>;
  /** Whom this device knows by name. */
  readonly people: PeopleHere;
  readonly db: Db;
  readonly open: (ahead?: AsksAhead) => Promise<void>;
  /** Write drafts down. Answers `ok` only after the device's database has confirmed. */
  readonly append: (drafts: readonly Draft[], options?: AppendOptions) => Promise<Outcome<LogRecord[]>>;
  readonly chooseWho: (who: Omit<Who, 'since'>) => Promise<void>;
  /** Take records that came from the server and are in the database already. */
  readonly take: (records: readonly LogRecord[]) => void;
  readonly recount: () => Promise<void>;
  /** Read again from the database what another tab has written. */
  readonly rereadRecords: (ids: readonly string[]) => Promise<void>;
  readonly rereadWho: () => Promise<void>;
  readonly say: (patch: Partial<Status>) => void;
  /** Keep what was measured about this device's clock: it has to be known after a reload without the network, too. */
  readonly keepClock: (clock: Measured) => Promise<void>;
  /** Told of every record that this tab has put into the database, written here or fetched from the server. */
  readonly onKept: (tell: Kept) => void;
  readonly dropLoss: () => void;
  /** Take what is new in the index of all chips; `anew` in place of all that was known. */
  readonly takeChips: (chips: readonly ChipEntry[], without: readonly AnimalId[], anew: boolean) => void;
  /** Take what animals that are not here have used of lots. */
  readonly takeAway: (used: readonly Away[]) => void;
  /** Hold an animal that left here for as long as somebody looks at it; answers how to let it go. */
  readonly lookAt: (animal: AnimalId) => () => void;
  readonly isOpen: (animal: AnimalId) => boolean;
  /** Let go of the animals that left, once all that was written here about them has been sent. */
  readonly setAside: () => Promise<void>;
}

export type Kept = (ids: readonly string[], from: 'here' | 'server') => void;

interface Outside {
  readonly db: Db;
  readonly now: () => string;
  readonly newId: () => string;
  /** Between slices of the opening; nobody waits where it is left out. */
  readonly rest?: Rest;
}

/** How what the first page will ask of a world is asked before it is shown (log/ahead-of-round.ts, ahead-of-desk.ts). */
export type AsksAhead = () => Promise<(world: World) => InParts<void>>;

export function makeStore({ db, now, newId, rest = noRest }: Outside): LocalStore {
  const world = watched<World>(emptyWorld);
  const status = watched<Status>(opening);
  const who = watched<Who>({ person: null, partner: null, since: 0 });
  const people = makePeople(db);
  const listeners = new Set<Kept>();
  const asides = asideOf({ db, world, now });
  const tellStatus = (patch: Partial<Status>): void => status.set(sayIn(status.get(), patch));
  /** Done when what was in the database at the start is in the world, or cannot be had. */
  let opened: Promise<void> = Promise.resolve();
  onTakenAway(db, (stopped) => tellStatus({ stopped }));

  async function recount(): Promise<void> {
    if (status.get().stopped !== null) return;
    tellStatus(await counted());
    await takeUnread();
  }

  async function counted(): Promise<Partial<Status>> {
    const [unsent, turnedAway, unread, damaged, records, waiting, notTaken, changes] = await Promise.all([
      db.outbox.filter((row) => row.state !== 'sent').count(),
      db.outbox.filter((row) => row.state === 'turned-away').count(),
      db.unread.count(),
      countDamaged(db),
      db.records.count(),
      db.pictures.where('state').equals('waiting').count(),
      db.pictures.where('state').equals('turned-away').count(),
      db.changes.filter(({ why }) => why === null).count(),
    ]);
    if (records > 0) writeMark({ records, unsent, at: now() });
    return {
      unsent: unsent + changes,
      turnedAway,
      unread: unread - damaged,
      damaged,
      pictures: { waiting, notTaken },
    };
  }

  /** What cannot be read has a say too: nothing may be worked out as if it were not there. */
  async function takeUnread(): Promise<void> {
    const now = await unreadIn(db);
    if (JSON.stringify(now) !== JSON.stringify(world.get().unread)) world.set(applyToWorld(world.get(), [], now));
  }

  async function rereadWho(): Promise<void> {
    if (status.get().stopped !== null) return;
    const kept = await readMeta(db, 'who');
    const { person, partner, since } = who.get();
    if (!isWho(kept)) return;
    const next = { ...kept, since: kept.since ?? 0 };
    if (next.person !== person || next.partner !== partner || next.since !== since) who.set(next);
  }

  async function open(ahead?: AsksAhead): Promise<void> {
    try {
      await db.open();
      if (isOfNewerProgram(db)) {
        db.close({ disableAutoOpen: true });
        tellStatus({ phase: 'cannot-open', stopped: 'newer', trouble: said('parts.stopped.newer-at-start') });
        return;
      }
      const askAhead = askingAhead(ahead);
      const read = await readWorld(db, await asides.leftOut(), rest);
      await people.reread();
      await askAhead(read.world);
      world.set(read.world);
      const mark = readMark();
      const device = DeviceId.parse((await readMeta(db, 'device')) ?? newId());
      await writeMeta(db, 'device', device);
      await rereadWho();
      const whole = (await readMeta(db, 'whole')) === true;
      const clock = Measured.safeParse(await readMeta(db, 'clock'));
      const counts = await counted();
      // Told in one go: what the page shows first is what it goes on with.
      tellStatus({
        ...counts,
        phase: 'ready',
        whole,
        device,
        clock: clock.success ? clock.data : null,
        loss: read.held === 0 && mark !== null && mark.records > 0 ? mark : null,
      });
      await takeUnread();
    } catch (error) {
      tellStatus({ phase: 'cannot-open', trouble: said('parts.store-cannot-open', { detail: wordsOf(error) }) });
    }
  }

  /** Begins to fetch how to ask; answers the asking. */
  function askingAhead(ahead: AsksAhead | undefined): (of: World) => Promise<void> {
    const asks = ahead?.();
    // Heard below; until then nobody waits for it.
    asks?.catch(() => undefined);
    return async (of) => {
      try {
        const ask = await asks;
        if (ask !== undefined) await inSlices(ask(of), rest);
      } catch {
        // What cannot be answered ahead, or not be fetched, is asked again where it is needed, and told there.
      }
    };
  }

  async function append(drafts: readonly Draft[], options: AppendOptions = {}): Promise<Outcome<LogRecord[]>> {
    if (drafts.length === 0) return ok([]);
    const asked = whoRecords(world.get(), who.get(), options);
    if (!asked.ok) return asked;
    const { device, stopped, clock } = status.get();
    if (stopped !== null) return no(`parts.stopped.not-saved-${stopped}`);
    if (device === null) return no('parts.store-not-open');
    const { shelter } = world.get();
    try {
      const atSigning = await asksAtSigning(drafts);
      const saved = await withinTime(db, saveLimit_ms + saveMore_ms * drafts.length, async () => {
        const last = await readMeta(db, 'deviceSeq');
        const nextSeq = typeof last === 'number' ? last + 1 : 1;
        const records = stamp(drafts, { ...asked.value, device, nextSeq, now: now(), clock, newId });
        const refused = await turnedAway(shelter, records, atSigning);
        if (refused !== null) return refused;
        await db.records.bulkAdd(records);
        await db.outbox.bulkAdd(
          records.map((record) => ({ id: record.id, deviceSeq: record.deviceSeq, state: 'waiting', why: null })),
        );
        await markNamed(db, records);
        await writeMeta(db, 'deviceSeq', nextSeq + records.length - 1);
        return ok(records);
      });
      if (!saved.ok) return saved;
      world.set(applyToWorld(world.get(), saved.value));
      await recount();
      const ids = saved.value.map((record) => record.id);
      for (const tell of listeners) tell(ids, 'here');
      return saved;
    } catch (error) {
      return no('parts.not-saved', { detail: wordsOf(error) });
    }
  }

  /** The first that may not come in, asked as the server will ask (log/admit.ts), with what is known here. */
  async function turnedAway(
    shelter: Shelter,
    records: readonly LogRecord[],
    atSigning: AtSigning | null,
  ): Promise<Outcome<never> | null> {
    const admit = await admission(shelter, people.names.get(), records, (ids) => findHere(db, ids), atSigning);
    for (const record of records) {
      const answer = admit(record);
      if (!answer.ok) return answer;
    }
    return null;
  }

  return {
    world,
    status,
    who,
    people,
    db,
    open: (ahead) => {
      opened = open(ahead);
      return opened;
    },
    append,
    chooseWho: async (next) => {
      const { person, since } = who.get();
      const last = await readMeta(db, 'deviceSeq');
      const from = next.person === person ? since : (typeof last === 'number' ? last : 0) + 1;
      const chosen = { ...next, since: from };
      await writeMeta(db, 'who', chosen);
      who.set(chosen);
    },
    take: (records) => {
      world.set(applyToWorld(world.get(), records));
      const ids = records.map((record) => record.id);
      for (const tell of listeners) tell(ids, 'server');
    },
    recount,
    rereadRecords: async (ids) => {
      // What another tab writes while this one still folds what it has read comes on top of it.
      await opened;
      if (status.get().stopped !== null) return;
      const rows = await db.records.bulkGet([...ids]);
      const aside = await asides.leftOut();
      world.set(
        applyToWorld(
          world.get(),
          rows.flatMap((row) => (row === undefined || aside.has(row.subject) ? [] : [row])),
        ),
      );
      await asides.leave();
      await recount();
    },
    rereadWho,
    say: tellStatus,
    keepClock: async (clock) => {
      tellStatus({ clock });
      await writeMeta(db, 'clock', clock);
    },
    onKept: (tell) => listeners.add(tell),
    takeChips: (chips, without, anew) => {
      const before = world.get();
      world.set({ ...before, chips: withChips(anew ? noChips : before.chips, chips, without) });
    },
    takeAway: (used) => world.set({ ...world.get(), away: awayOf(used) }),
    lookAt: asides.lookAt,
    isOpen: asides.isOpen,
    setAside: async () => {
      if (status.get().stopped !== null) return;
      await asides.put();
      for (const tell of listeners) tell([], 'server');
    },
    dropLoss: () => {
      removeMark();
      tellStatus({ loss: null });
    },
  };
}

/** Whose name goes on the record, and for which shelter. */
function whoRecords(
  world: World,
  who: Who,
  options: AppendOptions,
): Outcome<Pick<Stamp, 'shelter' | 'zone' | 'by' | 'with'>> {
  const { id, zone, people } = world.shelter;
  const person = people.find((one) => one.id === who.person && one.active);
  if (id === null) return no('parts.no-shelter');
  if (person === undefined) return no('parts.nobody-working');
  return ok({ shelter: id, zone, by: person.id, with: options.with ?? who.partner ?? undefined });
}

/** One kept by an older program has no count yet. */
function isWho(value: unknown): value is Omit<Who, 'since'> & { readonly since?: number } {
  return typeof value === 'object' && value !== null && 'person' in value && 'partner' in value;
}

const wordsOf = (error: unknown): string =>
  error instanceof Error ? `${error.name}: ${error.message}` : String(error);
