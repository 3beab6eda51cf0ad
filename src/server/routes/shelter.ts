import type { z } from 'zod';
import type { DemoAsked, Head, SetUp, SetUpDone, ShelterReady, ShelterState } from '../../api/wire.js';
import { sectionDefaults } from '../../core/biosecurity/section-defaults.js';
import { dayOfInstant } from '../../core/calendar.js';
import { PersonId, SectionId, ShelterId } from '../../core/ids.js';
import type { Demo } from '../../demo/make-demo.js';
import { describePerson, describeSection, describeShelter } from '../../log/commands/shelter.js';
import { type LogRecord, stamp } from '../../log/record.js';
import type { LogStore } from '../../log/store.js';
import type { Filed } from '../../log/views/documents/filed.js';
import type { Shelter } from '../../log/views/shelter.js';
import { type Asked, arrivalNow, type Context, toldToAll } from '../context.js';
import { keepDemoPhotos } from '../photo/demo-photos.js';
import { isRefusal, onWire, type Refusal, refuse, refuseBecause } from '../refusal.js';
import { wantsFirst } from '../sign-in/first.js';
import { fitSecret, hashSecret } from '../sign-in/secrets.js';
import { deviceFor, openSession } from '../sign-in/sessions.js';
import { gateOf } from '../sign-in/tries.js';
import { mayNotAsk } from '../sign-in/who-asks.js';
import { takesFirst } from './sign-in.js';

export async function headOf(store: LogStore): Promise<Head> {
  const { seq, hash, receivedAt } = await store.head();
  return { seq, hash, receivedAt };
}

/** A stranger learns that there is a shelter; what of it, whoever is signed in or holds an enrolled device. */
export async function shelterFor(context: Context, asked: Asked<undefined, undefined>): Promise<ShelterState> {
  const { shelter, who } = asked;
  const refused = shelter.id === null ? null : mayNotAsk(shelter, 'enrolled', who);
  if (refused === null) return shelterState(context, shelter);
  const { version } = context;
  return { state: 'closed', serverAt: context.clock(), version, first: await wantsFirst(context) };
}

async function shelterState(context: Context, shelter: Shelter): Promise<ShelterState> {
  const { version } = context;
  const serverAt = context.clock();
  if (shelter.id === null || shelter.name === null) {
    return { state: 'empty', serverAt, version, demoOffered: context.demo !== null };
  }
  const { id, name, zone, weightUnit, demo } = shelter;
  return {
    state: 'ready',
    serverAt,
    version,
    id,
    name,
    zone,
    weightUnit,
    demo,
    head: await headOf(context.store),
    people: shelter.people.filter(({ active }) => active).map(({ id, role }) => ({ id, role })),
    protocol: signedOf(shelter.protocols),
    formulary: signedOf(shelter.formularies),
    serverBehind_ms: (await arrivalNow(context)).serverBehind_ms ?? 0,
    told: (await toldToAll(context)).map(onWire),
  };
}

function signedOf(filed: readonly Filed<{ readonly id: string; readonly version: string }>[]) {
  const inForce = filed.find((one) => one.state === 'signed');
  if (inForce === undefined || inForce.signature === null) return null;
  const { signer, licence, on } = inForce.signature;
  return { id: inForce.document.id, version: inForce.document.version, signer, licence, on };
}

/** Setting up: two people who press the button at the same time get one shelter, and the second hears of it. */
export function setUpRoutes(context: Context) {
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = turn.then(work, work);
    turn = mine.catch(() => undefined);
    return mine;
  };

  const begin = async (make: () => Demo | Promise<Demo>): Promise<ShelterReady | Refusal> => {
    const there = await context.shelter();
    if (there.id !== null) return refuse('shelter-exists', { name: there.name ?? '' });
    const { records, people } = await make();
    // Who they are first: names without records show nowhere, records without names everywhere.
    await context.people.change(people);
    await context.store.append(records, context.clock());
    context.grown.tell(await context.store.head());
    const state = await shelterState(context, await context.shelter());
    if (state.state !== 'ready') throw new Error('the shelter was set up and is not there');
    return state;
  };

  return {
    setUp: (asked: Asked<undefined, z.output<typeof SetUp>>): Promise<z.output<typeof SetUpDone> | Refusal> =>
      inTurn(async () => {
        const people = asked.body.people.map((person) => ({ ...person, id: PersonId.parse(context.newId()) }));
        const me = people[asked.body.me];
        if (me === undefined || (me.role !== 'supervisor' && me.role !== 'medical')) {
          return refuse('setup-needs-supervisor');
        }
        const there = await context.shelter();
        if (there.id !== null) return refuse('shelter-exists', { name: there.name ?? '' });
        const { code, secret, device } = asked.body;
        const gate = gateOf(context.signIns, context.clock(), 'first', asked.from);
        const waits = gate.waits();
        if (waits !== null) return waits;
        const first = await takesFirst(context, code);
        if (first === null) {
          gate.count();
          return refuse('code-wrong');
        }
        const fits = await fitSecret('password', secret, [asked.body.name, ...people.map(({ name }) => name)]);
        if (!fits.ok) return refuseBecause('secret-weak', fits.why);
        const hash = await hashSecret(secret);
        const on = deviceFor(context, asked, device);
        if (isRefusal(on)) return on;
        const shelter = await begin(() => ({
          records: setUpRecords(context, asked.body, people, me.id),
          people: people.map(({ id, name, licence }) => ({ id, name, licence, contacts: [], withdrawn: false })),
        }));
        if ('refused' in shelter) return shelter;
        context.signIns.takeCode(first);
        context.signIns.setSecret(me.id, 'password', hash);
        context.signIns.setAdministers(me.id, true);
        openSession(context, asked, me.id, on.id, true);
        return { shelter, person: me.id };
      }),

    setUpDemo: (asked: Asked<undefined, z.output<typeof DemoAsked>>): Promise<ShelterReady | Refusal> =>
      inTurn(async () => {
        const { demo } = context;
        if (demo === null) return refuse('demo-not-offered');
        const now = context.clock();
        const { zone } = context;
        const at = { today: dayOfInstant(now, zone), now, zone, seed: asked.body.seed ?? 1 };
        return begin(async () => demo({ ...at, photos: await keepDemoPhotos(context.blobs) }));
      }),
  };
}

type NewPerson = z.output<typeof SetUp>['people'][number] & { readonly id: PersonId };

function setUpRecords(
  context: Context,
  asked: z.output<typeof SetUp>,
  people: readonly NewPerson[],
  by: PersonId,
): LogRecord[] {
  const now = context.clock();
  const { name, zone, weightUnit, device } = asked;
  const drafts = [
    ...describeShelter({ name, zone, weightUnit, demo: false }, now),
    ...asked.sections.flatMap((section, position) => {
      const usual = sectionDefaults[section.rank];
      const body = {
        section: SectionId.parse(context.newId()),
        name: section.name,
        rank: section.rank,
        position,
        kennels: section.kennels,
        wear: section.wear ?? [...usual.wear],
        leave: section.leave ?? [...usual.leave],
        contactMinutes: section.contactMinutes ?? usual.contactMinutes,
      };
      return describeSection(body, now);
    }),
    ...people.flatMap(({ id, role }) => describePerson({ person: id, role }, now)),
    ...context.starter(now),
  ];
  const shelter = ShelterId.parse(context.newId());
  return stamp(drafts, { shelter, zone, by, device, nextSeq: 1, now, newId: context.newId });
}
