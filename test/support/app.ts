import type { FastifyInstance } from 'fastify';
import { afterEach } from 'vitest';
import { createClient, type Fetch } from '../../src/api/client.js';
import { signInRoutes } from '../../src/api/routes-sign-in.js';
import type { SetUp } from '../../src/api/wire.js';
import { DeviceId } from '../../src/core/ids.js';
import { type AppOptions, createApp } from '../../src/server/app.js';
import { memoryBlobs } from '../../src/store/blobs/memory.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { memoryPrivateSide } from '../../src/store/private/memory.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { at } from './log.js';
import { shelterLog, shelterPeople } from './shelter-log.js';
import { cookieOf, signedInOver, wasSignedIn } from './signed-in.js';

export const noon = at('2026-03-02', '12:00');
const open: FastifyInstance[] = [];
afterEach(async () => {
  for (const app of open.splice(0)) await app.close();
});

/** The server without a socket, with a clock that a test holds and a client for each person. */
export async function server(options: Partial<AppOptions> = {}) {
  const store = options.store ?? memoryStore();
  const blobs = options.blobs ?? memoryBlobs();
  const time = { now: noon };
  const signIns = options.signIns ?? memorySignIns();
  const codes: string[] = [];
  const printCode = (one: string): void => void codes.push(one);
  const clock = () => time.now;
  const app = await createApp({ store, blobs, signIns, printCode, clock, version: '9.9.9', ...options });
  open.push(app);
  const fetch: Fetch = async (url, { method, headers, body }) => {
    const answer = await app.inject({
      method: method as 'GET',
      url,
      headers,
      ...(body === undefined ? {} : { payload: typeof body === 'string' ? body : Buffer.from(body) }),
    });
    return {
      status: answer.statusCode,
      text: async () => answer.body,
      arrayBuffer: async () => Uint8Array.from(answer.rawPayload).buffer,
    };
  };
  const as = (person: string | null, now = time.now) => {
    const line = signedInOver(fetch, signIns, () => person, clock);
    const client = createClient(line, '', { now: () => now });
    return { ...client, ...client.asks(signInRoutes) };
  };
  /** Headers of a request by hand. */
  const asking = (person: string) => ({ cookie: cookieOf(signIns, person, time.now) });
  /** What somebody fills in to set a shelter up, with the code that the server has printed. */
  const setUp: SetUp = { ...ownShelter, code: codes[0] ?? 'none' };
  return { app, store, blobs, signIns, codes, time, as, asking, setUp };
}

/** The same with the invented shelter of shelter-log.ts in it. */
export async function shelter(kittens = 3, zone = 'UTC', options: Partial<AppOptions> = {}) {
  const log = shelterLog(kittens, zone);
  const store = memoryStore();
  await store.append(log.records, noon);
  const around = await server({ people: memoryPrivateSide(shelterPeople), ...options, store });
  // All of them have signed in on every device that is told of.
  for (const { id } of shelterPeople) {
    for (const device of ['phone-a', 'phone-b', 'tablet', 'desk-1']) wasSignedIn(around.signIns, id, device);
  }
  return { log, ...around };
}

export const value = <T>(answer: { ok: true; value: T } | { ok: false; code: string }): T => {
  if (!answer.ok) throw new Error(answer.code);
  return answer.value;
};
export const code = (answer: { ok: boolean; code?: string }): string | undefined => (answer.ok ? 'ok' : answer.code);

/** What somebody fills in to set a shelter up, but for the code on the console. */
const ownShelter: Omit<SetUp, 'code'> = {
  name: 'Own shelter',
  zone: 'Europe/Paris',
  weightUnit: 'g',
  sections: [
    { name: 'Nursery', rank: 'clean-kittens' },
    { name: 'Isolation', rank: 'isolation', contactMinutes: 5 },
  ],
  people: [
    { name: 'Ana', role: 'volunteer' },
    { name: 'Bo', role: 'supervisor' },
  ],
  me: 1,
  device: DeviceId.parse('desk-1'),
  secret: 'a long and quiet sentence',
};
