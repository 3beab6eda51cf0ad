import type { Animal } from '../../core/animal/animal.js';
import { addDays, dayOfInstant } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import { subjectOf } from '../../log/record.js';
import { type World, withoutAnimals } from '../../log/views/world.js';
import type { Db } from '../db.js';
import type { Watched } from '../snapshot.js';

/**
 * Days for which the records of an animal that left stay in the device's database, out of sight: a server whose records
 * are put back from an older copy has lost them, and they are sent again from here. Our choice, no source.
 */
const keptDays = 30;
/** Days after a round until which those on it stay, while its hand-back is not accepted. Our choice, no source. */
const roundDays = 7;

interface Holding {
  readonly db: Db;
  readonly world: Watched<World>;
  readonly now: () => string;
}

/** The animals that a device does not hold any more, or has only fetched to be looked at. */
export function asideOf({ db, world, now }: Holding) {
  /** How many screens have an animal open. */
  const looking = new Map<AnimalId, number>();
  const isOpen = (animal: AnimalId): boolean => looking.has(animal);

  /** Subjects that are set aside and of which nothing waits to be sent: no part of what is worked out here. */
  async function leftOut(): Promise<Set<string>> {
    const aside = await db.aside.toCollection().primaryKeys();
    const waiting = aside.length === 0 ? new Set<string>() : await subjectsWaiting(db);
    return new Set(aside.filter((subject) => !waiting.has(subject) && !isOpen(animalOf(subject))));
  }

  /** Take what is set aside out of the world, here and in every other tab. */
  async function leave(): Promise<void> {
    const gone = [...(await leftOut())].map(animalOf);
    world.set(withoutAnimals(world.get(), gone));
  }

  /** Set aside those that left: nothing about them waits, no screen has them open, no round or test goes on with them. */
  async function put(): Promise<void> {
    const at = now();
    const before = world.get();
    const waiting = await subjectsWaiting(db);
    const busy = onRounds(before, at);
    const gone = [...before.animals.values()].filter(
      (animal) =>
        animal.left !== null &&
        !busy.has(animal.id) &&
        !isOpen(animal.id) &&
        !waiting.has(`animal:${animal.id}`) &&
        !isTested(animal),
    );
    await db.transaction('rw', db.aside, async () => {
      const there = new Set(await db.aside.toCollection().primaryKeys());
      const subjects = gone.map(({ id }) => `animal:${id}`).filter((subject) => !there.has(subject));
      await db.aside.bulkPut(subjects.map((subject) => ({ subject, at })));
    });
    await forget(at, waiting);
    await leave();
  }

  /** What has lain aside long enough goes from the database too. */
  async function forget(at: string, waiting: ReadonlySet<string>): Promise<void> {
    const until = new Date(Date.parse(at) - keptDays * 86_400_000).toISOString();
    const old = await db.aside.filter((row) => row.at < until).primaryKeys();
    const subjects = old.filter((subject) => !waiting.has(subject) && !isOpen(animalOf(subject)));
    if (subjects.length === 0) return;
    await db.transaction('rw', db.records, db.aside, async () => {
      await db.records.where('subject').anyOf(subjects).delete();
      await db.aside.bulkDelete(subjects);
    });
  }

  function lookAt(animal: AnimalId): () => void {
    looking.set(animal, (looking.get(animal) ?? 0) + 1);
    return () => {
      const left = (looking.get(animal) ?? 1) - 1;
      if (left === 0) looking.delete(animal);
      else looking.set(animal, left);
    };
  }

  return { leftOut, leave, put, lookAt, isOpen };
}

const animalOf = (subject: string): AnimalId => subjectOf({ subject }).id as AnimalId;

/** Subjects of which something written here has not come back from the log yet. */
async function subjectsWaiting(db: Db): Promise<Set<string>> {
  const records = await db.records.bulkGet(await db.outbox.toCollection().primaryKeys());
  return new Set(records.flatMap((record) => record?.subject ?? []));
}

const isTested = ({ runs }: Animal): boolean => runs.some((run) => run.startedAt !== null && run.readAt === null);

/** Animals on a round that is not over, or whose hand-back the desk has still to look at. */
function onRounds({ shelter }: World, at: string): Set<AnimalId> {
  const from = addDays(dayOfInstant(at, shelter.zone), -roundDays);
  const open = [...shelter.rounds.values()].filter(({ accepted, plan }) => accepted === null && plan.on >= from);
  return new Set(open.flatMap(({ plan }) => plan.lines.map(({ animal }) => animal)));
}
