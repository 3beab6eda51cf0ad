import type { z } from 'zod';
import type * as wire from '../../api/wire-sign-in.js';
import { type DeviceId, PersonId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import { describePerson } from '../../log/commands/shelter.js';
import { stamp } from '../../log/record.js';
import type { Shelter } from '../../log/views/shelter.js';
import type { KnownDevice, SecretKind } from '../../store/private/sign-ins.js';
import type { Asked, Context } from '../context.js';
import { isRefusal, type Refusal, refuse, refuseBecause } from '../refusal.js';
import { wantsFirst } from '../sign-in/first.js';
import { signInLimits } from '../sign-in/limits.js';
import { fitSecret, hashSecret, isSecret, readCode, tokenHash } from '../sign-in/secrets.js';
import { deviceFor, leaves, openSession } from '../sign-in/sessions.js';
import { gateOf } from '../sign-in/tries.js';

type With<Body> = Asked<undefined, Body>;
type Answer = Promise<wire.SignedIn | Refusal>;

/** Whoever is signed in by the session that was just opened, as the asker is told. */
function told(
  { signIns, clock }: Context,
  person: PersonId,
  device: DeviceId,
  freshAt: string | null = clock(),
): wire.SignedIn {
  const kinds: SecretKind[] = ['password', 'pin'];
  const until = freshAt === null ? 0 : Date.parse(freshAt) + signInLimits.fresh_ms;
  return {
    person,
    administers: signIns.administers(person),
    enrolled: signIns.device(device)?.enrolled ?? false,
    has: kinds.filter((kind) => signIns.secretOf(person, kind) !== null),
    freshUntil: until > Date.parse(clock()) ? new Date(until).toISOString() : null,
  };
}

/** Why this may not be somebody's password or PIN; a PIN alone is for those who do not run the desk. */
async function unfit(
  { people }: Context,
  { shelter }: { shelter: Shelter },
  kind: SecretKind,
  secret: string,
  role: Role | null,
): Promise<Refusal | null> {
  if (kind === 'pin' && (role === null || role === 'supervisor' || role === 'medical')) {
    return refuseBecause('secret-weak', { say: 'people.pin.not-for-desk' });
  }
  const names = (await people.people()).map(({ name }) => name);
  const fits = await fitSecret(kind, secret, [...names, shelter.name ?? '']);
  return fits.ok ? null : refuseBecause('secret-weak', fits.why);
}

const plain = (text: string): string => text.normalize('NFKC').trim().toLowerCase();

/** Who is meant: an id, or a name as typed; several may have one name. */
async function meant(context: Context, asked: With<z.output<typeof wire.SignIn>>): Promise<readonly PersonId[]> {
  const { person, name } = asked.body;
  if (person !== undefined) return [person];
  const found = (await context.people.people()).filter((one) => plain(one.name) === plain(name ?? ''));
  return found.map(({ id }) => id).slice(0, 3);
}

/** A device that somebody has signed in on before counts by itself: a stranger's wrong tries keep nobody out of it. */
function apartFromStrangers(
  { signIns }: Context,
  known: KnownDevice | null,
  ids: readonly PersonId[],
  whose: string,
): string {
  const been = known !== null && ids.some((id) => signIns.signInsOf(known.id, id).length > 0);
  return been ? `${whose} on ${known.id}` : whose;
}

export async function signIn(context: Context, asked: With<z.output<typeof wire.SignIn>>): Answer {
  const { signIns, clock } = context;
  const { kind, secret, device } = asked.body;
  if (asked.shelter.id === null) return refuse('no-shelter-yet');
  const known = asked.who.device;
  if (known?.revokedAt != null) return refuse('device-revoked');
  if (kind === 'pin' && (known?.id !== device || !known.enrolled)) return refuse('device-not-enrolled');
  const ids = await meant(context, asked);
  // By whom it is, however the name is typed; somebody unknown is counted alike, so that a wait tells nothing.
  const whose = ids.length === 0 ? plain(asked.body.name ?? '') : ids.join(' ');
  const gate = gateOf(signIns, clock(), apartFromStrangers(context, known, ids, whose), asked.from);
  const waits = gate.waits();
  if (waits !== null) return waits;
  gate.count();
  let right: PersonId | null = null;
  // Somebody unknown takes as long as a wrong password.
  for (const id of ids.length === 0 ? [null] : ids) {
    const active = asked.shelter.people.some((one) => one.id === id && one.active);
    const kept = id === null || !active ? null : signIns.secretOf(id, kind);
    if (await isSecret(secret, kept)) right = id;
  }
  if (right === null) return refuse('sign-in-wrong');
  const on = deviceFor(context, asked, device);
  if (isRefusal(on)) return on;
  gate.clear();
  openSession(context, asked, right, on.id, kind === 'password');
  return told(context, right, on.id, kind === 'password' ? clock() : null);
}

export async function signInDemo(context: Context, asked: With<z.output<typeof wire.SignInDemo>>): Answer {
  const { person, device } = asked.body;
  if (asked.shelter.id === null) return refuse('no-shelter-yet');
  if (!asked.shelter.demo) return refuse('sign-in-wrong');
  if (!asked.shelter.people.some(({ id, active }) => id === person && active)) return refuse('sign-in-wrong');
  const on = deviceFor(context, asked, device);
  if (isRefusal(on)) return on;
  openSession(context, asked, person, on.id, true);
  return told(context, person, on.id);
}

export async function signedIn(context: Context, { who }: Asked<undefined, undefined>): Answer {
  if (who.session === null) return refuse('person-missing');
  return told(context, who.session.person, who.session.device, who.session.freshAt);
}

export async function signInByCode(context: Context, asked: With<z.output<typeof wire.SignInByCode>>): Answer {
  const { signIns, clock } = context;
  const { kind, secret, device } = asked.body;
  if (asked.shelter.id === null) return refuse('no-shelter-yet');
  const id = tokenHash(readCode(asked.body.code));
  const gate = gateOf(signIns, clock(), 'code', asked.from);
  const waits = gate.waits();
  if (waits !== null) return waits;
  const code = signIns.code(id);
  const person = asked.shelter.people.find((one) => one.id === code?.whom && one.active);
  if (code?.use !== 'person' || code.until < clock() || person === undefined) {
    gate.count();
    return refuse('code-wrong');
  }
  const known = asked.who.device;
  if (kind === 'pin' && (known?.id !== device || !known.enrolled)) return refuse('device-not-enrolled');
  const weak = await unfit(context, asked, kind, secret, person.role);
  if (weak !== null) return weak;
  const hash = await hashSecret(secret);
  const on = deviceFor(context, asked, device);
  if (isRefusal(on)) return on;
  if (!signIns.takeCode(id)) return refuse('code-wrong');
  gate.clear();
  signIns.endSignIns({ person: person.id }, clock());
  signIns.setSecret(person.id, kind, hash);
  openSession(context, asked, person.id, on.id, kind === 'password');
  return told(context, person.id, on.id, kind === 'password' ? clock() : null);
}

/** The code that the console showed; null when this is not it, or nobody is wanted any more. */
export async function takesFirst(context: Context, typed: string): Promise<string | null> {
  const id = tokenHash(readCode(typed));
  return context.signIns.code(id)?.use === 'first' && (await wantsFirst(context)) ? id : null;
}

/**
 * The first administrator of a shelter in which nobody can sign in: one of its desk, or somebody new. What they do with
 * it stands on record under their name.
 */
export async function firstAdministrator(
  context: Context,
  asked: With<z.output<typeof wire.FirstAdministrator>>,
): Answer {
  const { signIns, clock, store } = context;
  const { person, name, secret, device } = asked.body;
  const { id: shelter, zone, people } = asked.shelter;
  if (shelter === null) return refuse('no-shelter-yet');
  const gate = gateOf(signIns, clock(), 'first', asked.from);
  const waits = gate.waits();
  if (waits !== null) return waits;
  const code = await takesFirst(context, asked.body.code);
  if (code === null) {
    gate.count();
    return refuse('code-wrong');
  }
  const there = people.find(({ id, active }) => id === person && active);
  const isDesk = there?.role === 'supervisor' || there?.role === 'medical';
  if (person !== undefined && !isDesk) return refuse('setup-needs-supervisor');
  const weak = await unfit(context, asked, 'password', secret, 'supervisor');
  if (weak !== null) return weak;
  const hash = await hashSecret(secret);
  const on = deviceFor(context, asked, device);
  if (isRefusal(on)) return on;
  if (!signIns.takeCode(code)) return refuse('code-wrong');
  gate.clear();
  const id = person ?? PersonId.parse(context.newId());
  await context.people.change([{ id, name }]);
  if (person === undefined) {
    const now = clock();
    const last = (await store.read()).filter((one) => one.device === device).length;
    const about = describePerson({ person: id, role: 'supervisor' }, now);
    const stamped = { shelter, zone, by: id, device, nextSeq: last + 1, now, newId: context.newId };
    await store.append(stamp(about, stamped), now);
    context.grown.tell(await store.head());
  }
  signIns.setSecret(id, 'password', hash);
  signIns.setAdministers(id, true);
  openSession(context, asked, id, on.id, true);
  return told(context, id, on.id);
}

/** Whether what was typed is a secret of who is signed in, with the wrong tries counted. */
async function isOwn(context: Context, asked: With<unknown>, secret: string, kinds: readonly SecretKind[]) {
  const { session } = asked.who;
  if (session === null) return refuse('person-missing');
  // Who is signed in is kept out by nobody's wrong tries but those of this session.
  const gate = gateOf(context.signIns, context.clock(), `${session.person} in ${session.id}`, asked.from);
  const waits = gate.waits();
  if (waits !== null) return waits;
  gate.count();
  let right = false;
  for (const kind of kinds) right = (await isSecret(secret, context.signIns.secretOf(session.person, kind))) || right;
  if (!right) return refuse('sign-in-wrong');
  gate.clear();
  return session;
}

export async function confirm(context: Context, asked: With<z.output<typeof wire.Confirm>>): Answer {
  const session = await isOwn(context, asked, asked.body.secret, ['password']);
  if (isRefusal(session)) return session;
  context.signIns.putSession({ ...session, freshAt: context.clock() });
  return told(context, session.person, session.device);
}

export async function newSecret(context: Context, asked: With<z.output<typeof wire.NewSecret>>): Answer {
  const { old, kind, secret } = asked.body;
  const session = await isOwn(context, asked, old, ['password', 'pin']);
  if (isRefusal(session)) return session;
  const weak = await unfit(context, asked, kind, secret, asked.who.person?.role ?? null);
  if (weak !== null) return weak;
  const hash = await hashSecret(secret);
  context.signIns.setSecret(session.person, kind, hash);
  context.signIns.endSignIns({ person: session.person }, context.clock());
  openSession(context, asked, session.person, session.device, kind === 'password');
  return told(context, session.person, session.device, kind === 'password' ? context.clock() : null);
}

export async function signOut(context: Context, { who, setCookie }: Asked<undefined, undefined>) {
  if (who.session !== null) {
    context.signIns.endSession(who.session.id);
    leaves(context, who.session.device, who.session.person);
  }
  setCookie('session', null);
  return { signedOut: true as const };
}
