import type { Client } from '../../api/client.js';
import type { BlobId } from '../../core/animal/photo.js';
import { type Said, said } from '../../core/said.js';
import { holdFetched, picturesInCare } from '../photos/held.js';
import { named } from '../photos/make.js';
import type { LocalStore } from '../store/store.js';

/** Answers that another try changes nothing about; every other one is tried again at the next exchange. */
const final: readonly string[] = ['photo-not-plain', 'photo-unreadable', 'photo-too-large', 'request-malformed'];
/** Pictures that the server did not have either, asked for again in one exchange. Our choice, no source. */
const askAgain = 20;
/** How long a picture that no record has named stays here: no form is open so long. Our choice, no source. */
const drafted_ms = 7 * 24 * 60 * 60_000;

/**
 * The pictures' own exchange, after that of the records and apart from it, so that no fact waits for a picture: sends
 * what this device has made, fetches the small pictures of animals in care, and lets go of those that nobody needs here.
 * Broken off anywhere, the next one goes on.
 */
export function pictureExchange(store: LocalStore, client: Client, now: () => string): () => Promise<void> {
  /** Missing on the server when last asked for; those asked for longest ago first. */
  const missing = new Set<BlobId>();
  let running: Promise<void> | null = null;

  async function send(): Promise<boolean> {
    const { db } = store;
    const waiting = await db.pictures.where('state').equals('waiting').primaryKeys();
    for (const id of waiting) {
      const row = await db.pictures.get(id);
      if (row === undefined) continue;
      const answer = await client.keepPicture(id, row.bytes);
      if (answer.ok) await db.pictures.update(id, { state: 'there', why: null });
      else if (final.includes(answer.code)) {
        const why = (answer.problem?.said as Said | undefined) ?? said('parts.turned-away');
        await db.pictures.update(id, { state: 'turned-away', why });
      } else return false;
    }
    return true;
  }

  async function fetchSmall(small: ReadonlySet<BlobId>): Promise<void> {
    const { db } = store;
    const held = new Set(await db.pictures.toCollection().primaryKeys());
    const again = [...missing].filter((id) => small.has(id)).slice(0, askAgain);
    for (const id of [...[...small].filter((one) => !missing.has(one)), ...again]) {
      if (held.has(id)) continue;
      const answer = await client.picture(id);
      const made = answer.ok ? named(answer.value) : null;
      missing.delete(id);
      // Another one under this name would be a picture of another cat.
      if (made?.id === id) await holdFetched(db, made, now());
      else if (answer.ok || answer.code === 'photo-missing' || answer.code === 'photo-damaged') missing.add(id);
      else return;
    }
  }

  async function letGo(inCare: ReadonlySet<BlobId>): Promise<void> {
    const { db } = store;
    // By their names only: the bytes of some hundred pictures are not read for it.
    const there = await db.pictures.where('state').equals('there').primaryKeys();
    await db.pictures.bulkDelete(there.filter((id) => !inCare.has(id)));
    const before = new Date(Date.parse(now()) - drafted_ms).toISOString();
    await db.pictures
      .where('state')
      .equals('drafted')
      .filter(({ heldAt }) => heldAt < before)
      .delete();
  }

  async function exchange(): Promise<void> {
    const { stopped, whole } = store.status.get();
    if (stopped !== null) return;
    const sent = await send();
    // Before everything has been read once, nobody can tell which animals are in care.
    if (sent && whole) {
      const { all, small } = picturesInCare(store.world.get());
      await letGo(all);
      await fetchSmall(small);
    }
    await store.recount();
  }

  return () => {
    running ??= exchange()
      .catch(() => undefined)
      .finally(() => {
        running = null;
      });
    return running;
  };
}
