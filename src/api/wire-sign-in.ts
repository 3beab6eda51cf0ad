import { z } from 'zod';
import { InstantText } from '../core/calendar.js';
import { AnimalId, DeviceId, PersonId } from '../core/ids.js';
import { Head, limits, RawRecord } from './wire.js';

/** Text that proves something: as long as it may be, so that nobody makes the server hash a book. */
const secret = z.string().min(1).max(256);
/** The id of a device as devices make it, which goes into a cookie. */
const device = DeviceId.refine((id) => /^[\w-]+$/.test(id), 'letters, digits, - and _');
const code = z.string().min(1).max(40).describe('A one-time code, as typed');
const kind = z.enum(['password', 'pin']);

export const SignIn = z
  .object({
    person: PersonId.optional().describe('Who it is, where the device shows names'),
    name: z.string().max(120).optional().describe('Or the name as typed, on a device that shows none'),
    kind,
    secret,
    device,
  })
  .refine((asked) => (asked.person === undefined) !== (asked.name === undefined), { message: 'person or name' })
  .meta({ id: 'SignIn' });
export const SignInDemo = z.object({ person: PersonId, device }).meta({ id: 'SignInDemo' });
export const SignInByCode = z
  .object({ code, kind, secret, device })
  .describe('The first password or PIN of somebody who was given a code, or a new one')
  .meta({ id: 'SignInByCode' });
export const FirstAdministrator = z
  .object({ code, person: PersonId.optional(), name: z.string().trim().min(1).max(120), secret, device })
  .describe('The code that the server printed at its start; without `person` somebody new')
  .meta({ id: 'FirstAdministrator' });
export const Confirm = z.object({ secret }).meta({ id: 'Confirm' });
export const NewSecret = z.object({ old: secret, kind, secret }).meta({ id: 'NewSecret' });
export const SignedIn = z
  .object({
    person: PersonId,
    administers: z.boolean(),
    enrolled: z.boolean().describe('Whether this device was enrolled, so that PINs work on it'),
    has: z.array(kind).describe('What this person can sign in with'),
    freshUntil: InstantText.nullable().describe('Until when what takes a veterinarian may be signed'),
  })
  .meta({ id: 'SignedIn' });
export type SignedIn = z.infer<typeof SignedIn>;
export const SignedOut = z.object({ signedOut: z.literal(true) }).meta({ id: 'SignedOut' });

export const CodeAsked = z.object({ person: PersonId }).meta({ id: 'CodeAsked' });
export const CodeGiven = z.object({ code: z.string(), until: InstantText }).meta({ id: 'CodeGiven' });
export const Duty = z.object({ person: PersonId, administers: z.boolean() }).meta({ id: 'Duty' });
export const Home = z
  .object({ person: PersonId, animals: z.array(AnimalId).max(200) })
  .describe('The animals that a foster home has with it')
  .meta({ id: 'Home' });
export const Done = z.object({ done: z.literal(true) }).meta({ id: 'Done' });

export const DeviceCodeAsked = z.object({ name: z.string().trim().min(1).max(80) }).meta({ id: 'DeviceCodeAsked' });
export const Enrol = z.object({ code, device }).meta({ id: 'Enrol' });
export const Enrolled = z.object({ name: z.string() }).meta({ id: 'Enrolled' });
export const DeviceLine = z
  .object({
    id: DeviceId,
    name: z.string(),
    enrolled: z.boolean(),
    since: InstantText,
    version: z.string(),
    seenAt: InstantText,
    revokedAt: InstantText.nullable(),
    people: z.array(PersonId).describe('Who signed in there, the last one first'),
    here: z.boolean().describe('The device that asks'),
  })
  .meta({ id: 'DeviceLine' });
export const DeviceList = z.object({ devices: z.array(DeviceLine) }).meta({ id: 'DeviceList' });
export const DeviceNamed = z
  .object({ device: DeviceId, name: z.string().trim().min(1).max(80) })
  .meta({ id: 'DeviceNamed' });
export const DeviceRevoked = z.object({ device: DeviceId }).meta({ id: 'DeviceRevoked' });

export const ApartList = z
  .object({
    records: z.array(
      z.object({
        id: z.string(),
        device: z.string(),
        why: z.enum(['device-revoked', 'not-signed-in']),
        at: InstantText,
        record: RawRecord,
      }),
    ),
  })
  .meta({ id: 'ApartList' });
export const JudgeApart = z
  .object({ ids: z.array(z.string().max(80)).min(1).max(limits.batch), take: z.boolean() })
  .describe('Into the log, as they are; or not at all')
  .meta({ id: 'JudgeApart' });
export const Judged = z
  .object({ taken: z.number().int(), dropped: z.number().int(), stay: z.number().int(), head: Head })
  .meta({ id: 'Judged' });
