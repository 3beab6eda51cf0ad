import type { z } from 'zod';
import {
  type AnimalRecords,
  type AnimalRecordsAsked,
  type Append,
  type Appended,
  type AppendOutcome,
  type Clock,
  type DamagedOnWire,
  KeptOnWire,
  limits,
  type RecordsAsked,
  type RecordsPage,
} from '../../api/wire.js';
import { InstantText } from '../../core/calendar.js';
import type { AnimalId, RecordId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import { admission } from '../../log/admit.js';
import type { Arrival } from '../../log/arrival.js';
import { noHash } from '../../log/hash.js';
import { signersOf } from '../../log/private-side.js';
import type { LogRecord } from '../../log/record.js';
import type { KeptEnvelope, LogStore } from '../../log/store.js';
import type { Say } from '../../words/say.js';
import { type Asked, arrivalNow, type Context, clockTold } from '../context.js';
import { problemOf, type Refusal, refuse, refuseBecause } from '../refusal.js';
import { asksHands } from '../sign-in/hands.js';
import { headOf } from './shelter.js';

/** Take a batch in: each record is answered on its own, and all that may come in comes in as one. */
export async function append(context: Context, asked: Asked<undefined, z.output<typeof Append>>): Promise<Appended> {
  const { say } = asked;
  const { store } = context;
  const signers = signersOf(await context.people.people());
  const asksHand = asksHands({ signIns: context.signIns, shelter: asked.shelter, signers }, asked.who, (record, why) =>
    context.signIns.putApart({
      id: record.id,
      device: record.device,
      raw: JSON.stringify(record),
      why,
      at: context.clock(),
    }),
  );
  const find = (ids: readonly RecordId[]) => store.read({ ids });
  const admit = await admission(asked.shelter, signers, asked.body.records, find, undefined, asksHand);
  const outcomes: AppendOutcome[] = [];
  const admitted: { readonly index: number; readonly record: LogRecord }[] = [];
  for (const [index, raw] of asked.body.records.entries()) {
    const answer = admit(raw);
    if (answer.ok) admitted.push({ index, record: answer.record });
    else outcomes.push(refused(index, raw, refuseBecause(answer.code, answer.why), say));
  }
  const arrival = await arrivalNow(context);
  context.complain(clockTold(arrival));
  const receivedAt = context.clock();
  const batch = admitted.map(({ record }) => record);
  const answers = batch.length === 0 ? [] : await store.append(batch, receivedAt);
  for (const [place, { id, outcome, seq }] of answers.entries()) {
    const index = admitted[place]?.index ?? place;
    const problem = outcome === 'conflict' ? problemOf(refuse('record-conflict'), say) : null;
    outcomes.push({ index, id, outcome, seq, problem });
  }
  const head = await headOf(store);
  if (answers.some(({ outcome }) => outcome === 'stored')) context.grown.tell(await store.head());
  outcomes.sort((a, b) => a.index - b.index);
  return { outcomes, head, clock: compareClocks(asked.deviceNow, receivedAt, say, arrival) };
}

function refused(index: number, raw: unknown, refusal: Refusal, say: Say): AppendOutcome {
  return { index, id: idOf(raw), outcome: 'refused', seq: null, problem: problemOf(refusal, say) };
}

const idOf = (raw: unknown): string | null =>
  typeof raw === 'object' && raw !== null && 'id' in raw && typeof raw.id === 'string' ? raw.id : null;

/** How far the device's clock is off. Records keep the device's times; people are told, nothing is shifted. */
export function compareClocks(
  deviceNow: string | null,
  serverAt: string,
  say: Say,
  arrival: Arrival,
): z.output<typeof Clock> {
  const device = InstantText.safeParse(deviceNow);
  const [back] = clockTold(arrival);
  // Its own clock is the wrong one: it has nothing to say about others.
  if (back !== undefined) return { serverAt, deviceAt: device.data ?? null, skew_s: null, note: say(back) };
  if (!device.success) return { serverAt, deviceAt: null, skew_s: null, note: null };
  const skew_s = Math.round((Date.parse(device.data) - Date.parse(serverAt)) / 1000);
  const minutes = Math.round(Math.abs(skew_s) / 60);
  const key = skew_s > 0 ? 'server.clock-fast' : 'server.clock-slow';
  const note = Math.abs(skew_s) > limits.skew_s ? say(key, { minutes }) : null;
  return { serverAt, deviceAt: device.data, skew_s, note };
}

/**
 * A page of what a device holds. Cut short of its limit when its text grows too long for a phone on a poor line. Refused
 * when the asker has read another history: what it holds and what is here must be brought together first.
 */
export async function recordsPage(
  context: Context,
  { after, hash, limit, since = after }: z.output<typeof RecordsAsked>,
): Promise<RecordsPage | Refusal> {
  const head = await headOf(context.store);
  if (await isAnotherHistory(context.store, { after, hash })) return refuse('another-history');
  const records: KeptEnvelope[] = [];
  const left = new Set<AnimalId>();
  let next = after;
  let text = 0;
  while (records.length < limit && text < limits.pageText) {
    // Little by little: a few records with pictures fill a page on their own.
    const some = await context.store.held({ after: next, since, limit: Math.min(100, limit - records.length) });
    for (const record of some.records) {
      if (text >= limits.pageText) break;
      records.push(record);
      text += JSON.stringify(record.body).length;
    }
    for (const animal of some.left) left.add(animal);
    const cut = text >= limits.pageText && records.at(-1) !== some.records.at(-1);
    const before = next;
    next = cut ? (records.at(-1)?.seq ?? next) : some.next;
    if (cut || next === before || next >= head.seq) break;
  }
  const hashThere = (await hashAt(context.store, next)) ?? '';
  return { ...toldApart(records), left: [...left], next, hash: hashThere, head };
}

/** Every record of one animal, whether it is here or not. */
export async function animalRecords(
  context: Context,
  { query: { animal, after, hash }, who }: Asked<z.output<typeof AnimalRecordsAsked>, undefined>,
): Promise<z.output<typeof AnimalRecords> | Refusal> {
  const foster = who.person?.role === 'foster' ? who.person.id : null;
  if (foster !== null && !context.signIns.homeOf(foster).includes(animal)) {
    return refuseBecause('role-not-allowed', said('people.not-own-animal'));
  }
  if (await isAnotherHistory(context.store, { after, hash })) return refuse('another-history');
  const head = await headOf(context.store);
  const { records, damaged = [] } = toldApart(await context.store.read({ subject: `animal:${animal}`, trusted: true }));
  return { records, damaged, head, serverAt: context.clock() };
}

function toldApart(records: readonly KeptEnvelope[]): Pick<RecordsPage, 'records' | 'damaged'> {
  const whole = new Set(records.filter(isWhole));
  const damaged = records.filter((record) => !whole.has(record)).map(toldOf);
  return { records: [...whole], ...(damaged.length === 0 ? {} : { damaged }) };
}

/** Whether the asker has read up to a place where something else stands here. */
export const isAnotherHistory = async (
  store: LogStore,
  { after, hash }: { readonly after: number; readonly hash?: string | undefined },
): Promise<boolean> => hash !== undefined && after > 0 && hash !== (await hashAt(store, after));

/** Hash of the record at a place; null when the log has none there. It stands for the whole log up to it. */
async function hashAt(store: LogStore, seq: number): Promise<string | null> {
  if (seq === 0) return noHash;
  const [record] = await store.read({ after: seq - 1, limit: 1 });
  return record?.seq === seq ? record.hash : null;
}

/** Whether a record can go over the wire as one. A body is an object in every kind: text is what could not be read. */
const isWhole = (record: KeptEnvelope): boolean =>
  KeptOnWire.safeParse(record).success && typeof record.body === 'object' && record.body !== null;

const toldOf = ({ seq, id, kind, subject }: KeptEnvelope): z.output<typeof DamagedOnWire> => ({
  seq,
  id: String(id),
  kind: String(kind),
  subject: String(subject),
});
