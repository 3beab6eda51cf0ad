import type { z } from 'zod';
import type * as wire from '../../api/wire-sign-in.js';
import type { DeviceId } from '../../core/ids.js';
import type { Asked, Context } from '../context.js';
import { isRefusal, type Refusal, refuse } from '../refusal.js';
import { signInLimits } from '../sign-in/limits.js';
import { newCode, readCode, tokenHash } from '../sign-in/secrets.js';
import { deviceFor } from '../sign-in/sessions.js';
import { gateOf } from '../sign-in/tries.js';

type With<Body> = Asked<undefined, Body>;
const done = { done: true } as const;

/** A one-time code for something, and until when it works. */
export function makeCode(
  { signIns, clock }: Pick<Context, 'signIns' | 'clock'>,
  { who }: Pick<With<unknown>, 'who'>,
  use: 'person' | 'device',
  whom: string,
): z.output<typeof wire.CodeGiven> {
  const code = newCode();
  const lasts = use === 'person' ? signInLimits.personCode_ms : signInLimits.deviceCode_ms;
  const until = new Date(Date.parse(clock()) + lasts).toISOString();
  signIns.putCode({ id: tokenHash(code), use, whom, by: who.person?.id ?? null, until });
  return { code, until };
}

export async function deviceList(
  { signIns }: Context,
  { who }: Asked<undefined, undefined>,
): Promise<z.output<typeof wire.DeviceList>> {
  const devices = signIns.devices().map(({ id, name, enrolled, since, version, seenAt, revokedAt }) => {
    const people = [...new Set(signIns.signInsOn(id).map(({ person }) => person))];
    return { id, name, enrolled, since, version, seenAt, revokedAt, people, here: id === who.session?.device };
  });
  return { devices };
}

export const deviceCode = async (context: Context, asked: With<z.output<typeof wire.DeviceCodeAsked>>) =>
  makeCode(context, asked, 'device', asked.body.name);

export async function enrol(
  context: Context,
  asked: With<z.output<typeof wire.Enrol>>,
): Promise<z.output<typeof wire.Enrolled> | Refusal> {
  const { signIns, clock } = context;
  if (asked.shelter.id === null) return refuse('no-shelter-yet');
  const gate = gateOf(signIns, clock(), 'device', asked.from);
  const waits = gate.waits();
  if (waits !== null) return waits;
  const id = tokenHash(readCode(asked.body.code));
  const code = signIns.code(id);
  if (code?.use !== 'device' || code.until < clock() || !signIns.takeCode(id)) {
    gate.count();
    return refuse('code-wrong');
  }
  const device = deviceFor(context, asked, asked.body.device, { name: code.whom, by: code.by });
  if (isRefusal(device)) return device;
  gate.clear();
  return { name: device.name };
}

export async function nameDevice({ signIns }: Context, { body }: With<z.output<typeof wire.DeviceNamed>>) {
  const device = signIns.device(body.device);
  if (device === null) return refuse('device-unknown');
  signIns.putDevice({ ...device, name: body.name });
  return done;
}

/** Its sessions end at once; what it wrote before is kept apart when it brings it. */
export async function revokeDevice({ signIns, clock }: Context, { body }: { body: { readonly device: DeviceId } }) {
  const device = signIns.device(body.device);
  if (device === null) return refuse('device-unknown');
  const now = clock();
  signIns.putDevice({ ...device, revokedAt: device.revokedAt ?? now });
  signIns.endSignIns({ device: device.id }, now);
  return done;
}
