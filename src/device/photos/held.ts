import type { BlobId, Photo } from '../../core/animal/photo.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { LogRecord } from '../../log/record.js';
import type { World } from '../../log/views/world.js';
import { type Db, withinTime } from '../db.js';
import type { Made, MadePhoto } from './make.js';

/** A picture that is not confirmed by then is not kept; the person is told. */
const saveLimit_ms = 10_000;

/**
 * Put a photo made on this device into its own store, before any record names it.
 *
 * Record and pictures go their own ways, so that nothing is lost and nothing waits for the other. The device makes both
 * pictures itself and knows their names (SHA-256) at once, with or without the network: the record that names them is
 * written when the person says so, and is sent like any other. The pictures go after the records, again and again until
 * the server says that it has them; until then other devices show a drawn face. The other way, to let the server make
 * the pictures and to write the record once it has answered, would hold a fact back (an arrival, a new collar) for as
 * long as a picture waits for the network, and would lose it with the page.
 */
export async function holdPhoto(db: Db, photo: MadePhoto, now: string): Promise<Outcome<Photo>> {
  const { full, small } = photo;
  try {
    await withinTime(db, saveLimit_ms, async () => {
      for (const { id, bytes } of [full, small]) {
        const there = (await db.pictures.get(id)) !== undefined;
        if (!there) await db.pictures.add({ id, bytes, state: 'drafted', why: null, heldAt: now });
      }
    });
    return ok({ full: full.id, small: small.id });
  } catch (error) {
    const detail = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    // Near its quota a browser says so in the name of its error, which Dexie repeats.
    return no(/quota/i.test(detail) ? 'parts.photo.no-room' : 'parts.photo.not-held', { detail });
  }
}

/** What records name has to reach the server. Called in the transaction that writes them. */
export async function markNamed(db: Db, records: readonly LogRecord[]): Promise<void> {
  const ids = records.flatMap((record) =>
    record.kind === 'animal-taken-in' || record.kind === 'animal-described' ? namesIn(record.body.marks?.photo) : [],
  );
  if (ids.length === 0) return;
  await db.pictures
    .where('id')
    .anyOf(ids)
    .filter((row) => row.state === 'drafted')
    .modify({ state: 'waiting' });
}

const namesIn = (photo: Photo | null | undefined): BlobId[] =>
  photo === null || photo === undefined ? [] : [photo.full, photo.small];

/** A picture that came from the server. No room for it is no trouble: it is fetched again when it is wanted. */
export async function holdFetched(db: Db, { id, bytes }: Made, now: string): Promise<void> {
  await db.pictures.add({ id, bytes, state: 'there', why: null, heldAt: now }).catch(() => undefined);
}

/**
 * The server's records were put back from an older copy, and its pictures perhaps with them: all that this device holds
 * goes again. What the server has it takes a second time without a change.
 */
export async function sendHeldAgain(db: Db): Promise<void> {
  await db.pictures.where('state').equals('there').modify({ state: 'waiting' });
}

/** Pictures of animals in care: all of them, and the small ones, which a device keeps for the time without the network. */
export function picturesInCare(world: World): {
  readonly all: ReadonlySet<BlobId>;
  readonly small: ReadonlySet<BlobId>;
} {
  const photos = [...world.animals.values()].flatMap(({ left, marks }) =>
    left === null && marks.photo !== null ? [marks.photo] : [],
  );
  return { all: new Set(photos.flatMap(namesIn)), small: new Set(photos.map((photo) => photo.small)) };
}
