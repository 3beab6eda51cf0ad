import { type Kysely, sql } from 'kysely';
import type { AnimalId } from '../../core/ids.js';
import type { HeldAsked, HeldPage, KeptEnvelope } from '../../log/store.js';
import { animalIn, leftOf } from '../held.js';
import { asWritten } from './as-written.js';
import type { Database } from './tables.js';

/** Values bound in one question: under every store's limit. */
const atOnce = 500;
/** Places looked at in one question while most records are of animals that left. */
const glance = 2000;

/**
 * What a device holds (`LogStore.held`), found by indexes: up to `since` by the subjects that are held, whatever else was
 * ever written; beyond it by walking the log, which costs what is new. Inside a transaction, so that records and rows
 * are of one moment.
 */
export async function heldPage(db: Kysely<Database>, ask: HeldAsked): Promise<HeldPage> {
  const { since, limit } = ask;
  const head = (await db.selectFrom('log_head').select('seq').executeTakeFirstOrThrow()).seq;
  const records: KeptEnvelope[] = [];
  const left = new Set<AnimalId>();
  let after = ask.after;
  if (after < since) {
    records.push(...(await recordsAt(db, await placesUpTo(db, ask))));
    for (const animal of await leftAmong(db, records.map(animalIn))) left.add(animal);
    if (records.length === limit) return page(records, left, records.at(-1)?.seq ?? after);
    after = since;
  }
  while (after < head) {
    const some = await db
      .selectFrom('records')
      .select(['seq', 'subject'])
      .where('seq', '>', after)
      .orderBy('seq')
      .limit(glance)
      .execute();
    const animals = some.filter(({ subject }) => isAnimal(subject)).map(animalIn);
    const gone = new Set(await leftAmong(db, animals));
    const taken = some.slice(0, limit - records.length);
    records.push(
      ...(await recordsAt(
        db,
        taken.map(({ seq }) => seq),
      )),
    );
    for (const row of taken) if (isAnimal(row.subject) && gone.has(animalIn(row))) left.add(animalIn(row));
    if (records.length === limit) return page(records, left, records.at(-1)?.seq ?? after);
    after = some.at(-1)?.seq ?? head;
  }
  return page(records, left, Math.max(ask.after, head));
}

const isAnimal = (subject: string): boolean => subject.startsWith('animal:');

const page = (records: readonly KeptEnvelope[], left: ReadonlySet<AnimalId>, next: number): HeldPage => ({
  records,
  next,
  left: leftOf(records, (animal) => left.has(animal)),
});

/**
 * Places up to `since`: of the shelter, of animals in care, of those never taken in (named by their flags), and of those
 * that left while this was being read. Each branch is a walk along one index.
 */
async function placesUpTo(db: Kysely<Database>, { after, since, limit }: HeldAsked): Promise<number[]> {
  const span = sql`r.seq > ${after} and r.seq <= ${since}`;
  // The signs and zeros keep the engine from walking all places in their order instead of the subjects that are held.
  const spanBySubject = sql`+r.seq > ${after} and +r.seq <= ${since}`;
  const found = await sql<{ seq: number }>`
    select r.seq + 0 as seq from records r where r.subject < 'animal:' and ${spanBySubject}
    union all select r.seq + 0 from records r where r.subject >= 'animal;' and ${spanBySubject}
    union all select r.seq + 0 from animals a join records r on r.subject = 'animal:' || a.animal
      where a.left_on is null and ${span}
    union all select r.seq + 0 from flags f join records r on r.subject = 'animal:' || substr(f.key, 16)
      where f.key >= 'unknown-animal:' and f.key < 'unknown-animal;' and ${span}
    order by 1 limit ${limit}`.execute(db);
  const places = found.rows.map(({ seq }) => seq);
  for (const some of inParts(await leftSince(db, since))) {
    const more = db.selectFrom('records').select('seq').where('subject', 'in', some).where('seq', '>', after);
    const rows = await more.where('seq', '<=', since).orderBy('seq').limit(limit).execute();
    places.push(...rows.map(({ seq }) => seq));
  }
  return places.sort((a, b) => a - b).slice(0, limit);
}

/** Subjects of animals that left and have a record after `since`: the asker may hold them. */
async function leftSince(db: Kysely<Database>, since: number): Promise<string[]> {
  const rows = await db.selectFrom('records').select('subject').where('seq', '>', since).orderBy('seq').execute();
  const gone = await leftAmong(db, rows.filter(({ subject }) => isAnimal(subject)).map(animalIn));
  return gone.map((animal) => `animal:${animal}`);
}

async function leftAmong(db: Kysely<Database>, animals: readonly string[]): Promise<AnimalId[]> {
  const found: AnimalId[] = [];
  for (const some of inParts([...new Set(animals)])) {
    // Whether it left is looked at here and not asked for: an engine might walk the index of all that left instead.
    const rows = await db.selectFrom('animals').select(['animal', 'left_on']).where('animal', 'in', some).execute();
    for (const { animal, left_on } of rows) if (left_on !== null) found.push(animal as AnimalId);
  }
  return found;
}

async function recordsAt(db: Kysely<Database>, places: readonly number[]): Promise<KeptEnvelope[]> {
  const found: KeptEnvelope[] = [];
  for (const some of inParts(places)) {
    const rows = await db.selectFrom('records').selectAll().where('seq', 'in', some).orderBy('seq').execute();
    found.push(...rows.map(asWritten));
  }
  return found;
}

function* inParts<T>(all: readonly T[]): Generator<T[]> {
  for (let from = 0; from < all.length; from += atOnce) yield all.slice(from, from + atOnce);
}
