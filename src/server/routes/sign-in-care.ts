import type { z } from 'zod';
import type * as wire from '../../api/wire-sign-in.js';
import type { Person } from '../../log/views/shelter.js';
import { rolesInWords } from '../../log/who-may.js';
import type { Asked, Context } from '../context.js';
import { type Refusal, refuse } from '../refusal.js';
import { makeCode } from './devices.js';

type With<Body> = Asked<undefined, Body>;
const done = { done: true } as const;

const workingHere = ({ shelter, body }: With<{ readonly person: string }>): Person | undefined =>
  shelter.people.find(({ id, active }) => active && id === body.person);

/**
 * Who runs the desk or looks after sign-ins, or ever did, gets a code from an administrator only: it lets whoever has it be
 * them, and a role is changed by the desk for a moment and back.
 */
export async function giveCode(
  context: Context,
  asked: With<z.output<typeof wire.CodeAsked>>,
): Promise<z.output<typeof wire.CodeGiven> | Refusal> {
  const person = workingHere(asked);
  if (person === undefined) return refuse('person-unknown');
  const was = [person, ...person.roles].some(({ role }) => role === 'supervisor' || role === 'medical');
  const desk = was || context.signIns.administers(person.id);
  if (desk && !asked.who.has.includes('administrator')) {
    const me = asked.who.person?.id ?? '';
    return refuse('role-not-allowed', { name: { person: me }, roles: rolesInWords(['administrator']) });
  }
  return makeCode(context, asked, 'person', person.id);
}

export async function endSignIns({ signIns, clock }: Context, { body }: With<z.output<typeof wire.CodeAsked>>) {
  signIns.endSignIns({ person: body.person }, clock());
  const administers = signIns.administers(body.person);
  const home = signIns.homeOf(body.person);
  signIns.forget(body.person);
  signIns.setAdministers(body.person, administers);
  signIns.setHome(body.person, home);
  return done;
}

export async function giveDuty({ signIns }: Context, asked: With<z.output<typeof wire.Duty>>) {
  const { person, administers } = asked.body;
  if (administers && workingHere(asked) === undefined) return refuse('person-unknown');
  const active = new Set(asked.shelter.people.filter((one) => one.active).map(({ id }) => id));
  const others = signIns.administrators().filter((one) => one !== person && active.has(one));
  const canSignIn = others.some((one) => signIns.secretOf(one, 'password') !== null);
  if (!administers && !canSignIn) return refuse('last-administrator');
  signIns.setAdministers(person, administers);
  return done;
}

export async function setHome({ signIns }: Context, asked: With<z.output<typeof wire.Home>>) {
  if (workingHere(asked)?.role !== 'foster') return refuse('person-unknown');
  signIns.setHome(asked.body.person, asked.body.animals);
  return done;
}
