import { createClient, type Fetch } from '../../api/client.js';
import type { AnimalId } from '../../core/ids.js';
import type { LocalStore } from '../store/store.js';
import { pullChips } from './chips.js';
import { listen } from './events.js';
import { goBack } from './go-back.js';
import type { History } from './history.js';
import { pullLots } from './lots.js';
import { meet } from './meet.js';
import { fetchPeople, sendPeople } from './people.js';
import { pictureExchange } from './pictures.js';
import { type Pulling, pull, rereadUnread, takeHistory } from './pull.js';
import { push } from './push.js';
import type { Reach } from './reach.js';
import { reconcile } from './reconcile.js';

/** Longest wait for one answer; a stalled line must not hold back the next try. */
const answerLimit_ms = 20_000;
/** Regular look when nothing else asks for one. */
const regular_ms = 30_000;
const firstWait_ms = 1_000;
const longestWait_ms = 60_000;

export interface Sync {
  readonly start: () => void;
  /** Exchange now; resolves when this exchange is over, reached or not. */
  readonly once: () => Promise<void>;
  /** No regular look any more. */
  readonly stop: () => void;
  /** Fetch the whole history of an animal that is not on this device, for somebody who has it open. */
  readonly openAnimal: (animal: AnimalId) => Promise<History>;
  readonly client: ReturnType<typeof createClient>;
}

/** How a store takes what is pulled for it. */
export const pullingFor = (
  store: LocalStore,
  device: string,
  head: number,
  progress?: Pulling['progress'],
): Pulling => ({
  device,
  head,
  take: store.take,
  isHere: (animal) => (store.world.get().animals.get(animal)?.left ?? null) === null,
  isOpen: store.isOpen,
  ...(progress === undefined ? {} : { progress }),
});

const overTheAir: Fetch = (url, init) => fetch(url, { ...init, signal: AbortSignal.timeout(answerLimit_ms) });

export function makeSync(store: LocalStore, now: () => string, reach: Fetch = overTheAir, version?: string): Sync {
  const client = createClient(reach, '', { now, ...(version === undefined ? {} : { version }) });
  const exchangePictures = pictureExchange(store, client, now);
  let failures = 0;
  let again = false;
  let running: Promise<void> | null = null;
  let over = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  async function exchange(): Promise<void> {
    const { device, phase, stopped } = store.status.get();
    if (phase !== 'ready' || stopped !== null || device === null || store.who.get().person === null) return;
    const met = await meet(store, client, now);
    if (!met.reached) {
      // A device that was revoked meanwhile still brings what it holds: the server keeps it apart and says so.
      if (met.code === 'person-missing') await push(store.db, client).then(store.recount);
      return unreached(met.code);
    }
    const pulling = pullingFor(store, device, met.head, fetched);
    let got = await bothWays(pulling);
    if (!got.reached && got.code === 'another-history') {
      const back = await goBack(store, client, now);
      if (!back.reached) return unreached(back.code);
      got = await bothWays(pulling);
    }
    if (got.reached) got = await reconcile(store, client, pulling);
    if (got.reached) got = await pullChips(store, client);
    if (got.reached) await store.setAside();
    if (got.reached) got = await pullLots(store, client);
    await store.recount();
    if (got.reached) {
      failures = 0;
      if (!store.status.get().whole) store.say({ whole: true, fetched: null });
      store.say({ server: 'reached', heardAt: now() });
      void exchangePictures();
      return;
    }
    unreached(got.code);
  }

  async function bothWays(pulling: Pulling): Promise<Reach> {
    const told = await sendPeople(store.people, client, store.who.get().person);
    const sent = told.reached ? await push(store.db, client) : told;
    const got = sent.reached ? await pull(store.db, client, pulling) : sent;
    return got.reached ? fetchPeople(store.people, client) : got;
  }

  async function openAnimal(animal: AnimalId): Promise<History> {
    const { device, phase } = store.status.get();
    if (phase !== 'ready' || device === null) return { reached: false, code: 'unreachable' };
    const fetched = await takeHistory(store.db, client, animal, pullingFor(store, device, 0));
    if (fetched.reached) await pullLots(store, client);
    return fetched;
  }

  /** Told only while the first fetch goes on: later ones are small. */
  function fetched(have: number, all: number): void {
    if (!store.status.get().whole) store.say({ fetched: { have, all } });
  }

  function unreached(code: string): void {
    failures += 1;
    if (code === 'other-shelter') store.say({ server: 'other-shelter' });
    else store.say({ server: code.startsWith('person-') ? 'wants-sign-in' : 'out-of-reach' });
  }

  /** One exchange at a time on the whole device: several tabs share one outbox. */
  function alone(work: () => Promise<void>): Promise<void> {
    const locks = typeof navigator === 'undefined' ? undefined : navigator.locks;
    return locks === undefined ? work() : locks.request('roundhand-sync', work);
  }

  function once(): Promise<void> {
    if (running !== null) {
      again = true;
      return running;
    }
    running = alone(exchange)
      .catch(() => {
        failures += 1;
      })
      .finally(() => {
        running = null;
        const wait = again ? 0 : waitAfter(failures);
        again = false;
        clearTimeout(timer);
        if (!over) timer = setTimeout(() => void once(), wait);
      });
    return running;
  }

  return {
    client,
    once,
    openAnimal,
    stop: () => {
      over = true;
      clearTimeout(timer);
    },
    start: () => {
      store.onKept((_, from) => {
        if (from === 'here') void once();
      });
      listen(client.url('events'), () => void once());
      window.addEventListener('online', () => void once());
      window.addEventListener('offline', () => store.say({ server: 'out-of-reach' }));
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'visible') void once();
      });
      store.who.subscribe(() => void once());
      store.people.waiting.subscribe(() => {
        if (store.people.waiting.get().some(({ why }) => why === null)) void once();
      });
      watchForJumps(now, () => void once());
      // A database that cannot be read says so on the page; here there is nothing to read again then.
      void rereadUnread(store.db, store.take).then(once, () => undefined);
    },
  };
}

/** Longest that the clock on the wall and the one that only counts may move apart between two looks. */
const jump_ms = 3_000;

/**
 * A clock that is set, or a phone that wakes up, is seen by the clock that only counts: what is known about the clock no
 * longer holds, and is measured again at once.
 */
function watchForJumps(now: () => string, moved: () => void): void {
  let before = { wall: Date.parse(now()), counted: performance.now() };
  setInterval(() => {
    const at = { wall: Date.parse(now()), counted: performance.now() };
    if (Math.abs(at.wall - before.wall - (at.counted - before.counted)) > jump_ms) moved();
    before = at;
  }, 1_000);
}

/** Regular while all is well; else doubling from one second to a minute, spread so that ten phones do not call at once. */
function waitAfter(failures: number): number {
  if (failures === 0) return regular_ms;
  const wait = Math.min(longestWait_ms, firstWait_ms * 2 ** (failures - 1));
  return wait * (0.75 + Math.random() / 2);
}
