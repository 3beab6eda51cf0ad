import { z } from 'zod';
import { BlobId, Photo } from '../core/animal/photo.js';
import { SectionRank } from '../core/biosecurity/section.js';
import { CalendarDate, InstantText, ZoneName } from '../core/calendar.js';
import { AnimalId, DeviceId, LotId, PersonId, ScheduleId, SectionId, ShelterId } from '../core/ids.js';
import { Role } from '../core/people.js';
import { ChipEntry } from '../log/chip-index.js';
import { Envelope } from '../log/record.js';
import { Problem } from './problems.js';

/** Lengths of what the server takes and gives in one go; the client keeps to them. */
export const limits = {
  /** Bytes of one request body, of records or of a photo. */
  bodyBytes: 16 * 1024 * 1024,
  /** Bytes of a picture that a device has made; one of ours is a tenth of it. Our choice, no source. */
  pictureBytes: 4 * 1024 * 1024,
  /** Pixels of a photo, width by height: a small file can unpack to more than a computer holds. Our choice, no source. */
  photoPixels: 64_000_000,
  /** Records in one append. */
  batch: 1000,
  /** Records in one page of reading. */
  page: 1000,
  /** Characters after which a page of reading is cut, whatever its limit. */
  pageText: 4 * 1024 * 1024,
  /** Seconds a device's clock may be off before people are told. Our choice, no source. */
  skew_s: 120,
} as const;

export const Head = z
  .object({
    seq: z.number().int().min(0).describe('Place of the last record; 0 when there is none'),
    hash: z.string().describe('SHA-256 of the chain up to it, hex'),
    receivedAt: InstantText.nullable(),
  })
  .meta({ id: 'Head' });
export type Head = z.infer<typeof Head>;

/** A sentence as message key and values, for whoever puts it into words. */
const SaidOnWire = z.object({ say: z.string(), with: z.record(z.string(), z.unknown()).optional() });

/** When the records were last looked through from end to end. */
const Looked = z.object({
  at: InstantText,
  whole: z.boolean(),
  records: z.number().int().min(0),
});

export const Health = z
  .object({
    ok: z.literal(true),
    version: z.string(),
    seq: z.number().int(),
    looked: Looked.nullable().describe('The last look through all records; null before the first since the start'),
    copied: z
      .object({ last: InstantText.nullable(), failed: z.boolean() })
      .nullable()
      .describe('The newest copy in a second place, and whether the last try failed; null when none are asked for'),
    told: z.array(z.string()).describe('What is wrong with the records, in words'),
  })
  .meta({ id: 'Health' });

const SignedDocument = z.object({
  id: z.string(),
  version: z.string(),
  signer: z.string(),
  licence: z.string(),
  on: CalendarDate,
});

/** A device asks this first and learns from it how far its own clock is off. */
const serverAt = InstantText.describe('The server’s clock when it answered');

export const ShelterEmpty = z.object({
  state: z.literal('empty'),
  serverAt,
  version: z.string(),
  demoOffered: z.boolean(),
});
/** What a stranger learns: that there is a shelter, and how to get in. */
export const ShelterClosed = z.object({
  state: z.literal('closed'),
  serverAt,
  version: z.string(),
  first: z
    .boolean()
    .describe('True while nobody can sign in: the server has printed a code for the first administrator'),
});
export const ShelterReady = z.object({
  state: z.literal('ready'),
  serverAt,
  version: z.string(),
  id: ShelterId,
  name: z.string(),
  zone: ZoneName,
  weightUnit: z.enum(['g', 'kg', 'lb']),
  demo: z.boolean().describe('True for the invented shelter'),
  head: Head,
  /** Enough to choose who is holding the device; the rest comes with the records. */
  people: z.array(z.object({ id: PersonId, role: Role })).describe('Who works there; their names: /api/people'),
  protocol: SignedDocument.nullable(),
  formulary: SignedDocument.nullable(),
  serverBehind_ms: z
    .number()
    .int()
    .min(0)
    .describe('How far the server’s clock lies behind its own log; above 0 no clock may be compared with it'),
  told: z.array(SaidOnWire).describe('What is wrong with the records of the server: said on every page'),
});
export const ShelterState = z
  .discriminatedUnion('state', [ShelterEmpty, ShelterClosed, ShelterReady])
  .meta({ id: 'ShelterState' });
export type ShelterState = z.infer<typeof ShelterState>;
export type ShelterReady = z.infer<typeof ShelterReady>;

export const SetUp = z
  .object({
    name: z.string().trim().min(1).max(120),
    zone: ZoneName,
    weightUnit: z.enum(['g', 'kg', 'lb']),
    sections: z
      .array(
        z.object({
          name: z.string().trim().min(1).max(80),
          rank: SectionRank,
          kennels: z.array(z.string().min(1).max(20)).default([]),
          /** What is left out starts as usual for the rank. */
          wear: z.array(z.string().min(1).max(80)).optional(),
          leave: z.array(z.string().min(1).max(120)).optional(),
          contactMinutes: z.number().int().min(0).max(120).optional(),
        }),
      )
      .min(1)
      .max(200),
    people: z
      .array(
        z.object({ name: z.string().trim().min(1).max(120), role: Role, licence: z.string().max(120).default('') }),
      )
      .min(1)
      .max(500),
    /** Which of `people` is setting the shelter up. */
    me: z.number().int().min(0).default(0),
    /** The device that asks; the records name it. */
    device: DeviceId,
    /** The code that the server printed at its start, and the password of who sets the shelter up. */
    code: z.string().min(1).max(40),
    secret: z.string().min(1).max(256),
  })
  .refine((asked) => asked.me < asked.people.length, { path: ['me'], message: 'nobody in the list has this place' })
  .meta({ id: 'SetUp' });
export type SetUp = z.input<typeof SetUp>;

export const SetUpDone = z.object({ shelter: ShelterReady, person: PersonId }).meta({ id: 'SetUpDone' });

export const DemoAsked = z.object({ seed: z.number().int().min(0).optional() }).meta({ id: 'DemoAsked' });

/** A record as a device sends it. Taken as it comes: each is looked at on its own, so one bad one loses no other. */
export const RawRecord = z
  .unknown()
  .describe('A record as the device wrote it down: a KeptRecord without seq, hash and receivedAt');
export const Append = z.object({ records: z.array(RawRecord).max(limits.batch) }).meta({ id: 'Append' });

export const AppendOutcome = z
  .object({
    index: z.number().int().min(0).describe('Place in the batch as sent'),
    id: z.string().nullable().describe('Id of the record, if it had one'),
    outcome: z.enum(['stored', 'already-there', 'conflict', 'refused']),
    seq: z.number().int().nullable().describe('Place in the log of the record kept under this id'),
    problem: Problem.nullable().describe('Why it was not kept; the device keeps it until somebody deals with it'),
  })
  .meta({ id: 'AppendOutcome' });
export type AppendOutcome = z.infer<typeof AppendOutcome>;

export const Clock = z
  .object({
    serverAt: InstantText,
    deviceAt: InstantText.nullable().describe('What the device said in x-roundhand-now'),
    skew_s: z.number().int().nullable().describe('Device minus server, whole seconds; above zero the device is fast'),
    note: z.string().nullable().describe('A sentence when the difference matters'),
  })
  .meta({ id: 'Clock' });

export const Appended = z
  .object({ outcomes: z.array(AppendOutcome), head: Head, clock: Clock })
  .meta({ id: 'Appended' });
export type Appended = z.infer<typeof Appended>;

/** Query values are text; numbers and lists are read from it. */
const count = z.coerce.number().int().min(0);
const list = <T extends z.ZodType>(of: T) =>
  z.preprocess(
    (value) => (typeof value === 'string' ? value.split(',').filter((part) => part !== '') : value),
    z.array(of),
  );

export const RecordsAsked = z.object({
  after: count.default(0).describe('Place after which to read'),
  hash: z
    .string()
    .max(64)
    .optional()
    .describe('Hash of the record at `after`, as the asker has it: another one there is another history'),
  limit: z.coerce.number().int().min(1).max(limits.page).default(500),
  since: count
    .optional()
    .describe('Where the log ended when the asker began to read from its start; left out once it has read that far'),
});
export const KeptOnWire = Envelope.extend({
  seq: z.number().int().min(1),
  hash: z.string(),
  receivedAt: InstantText,
  serverBehind_ms: z
    .number()
    .int()
    .optional()
    .describe('How far the server’s clock lay behind its own log then; its time of arrival proves nothing'),
}).meta({ id: 'KeptRecord' });
/** A record of the log that is damaged where it lies: told with its place, so that devices get past it. */
export const DamagedOnWire = z
  .object({ seq: z.number().int().min(1), id: z.string(), kind: z.string(), subject: z.string() })
  .meta({ id: 'DamagedRecord' });
export const RecordsPage = z
  .object({
    records: z.array(KeptOnWire),
    damaged: z
      .array(DamagedOnWire)
      .optional()
      .describe('Records in these places that cannot be read any more, as far as they can be told'),
    next: z.number().int().describe('Ask `after` this for more'),
    hash: z.string().describe('Hash of the record at `next`; the two together name the history'),
    left: z.array(AnimalId).describe('Animals of these records that are not here any more'),
    head: Head,
  })
  .meta({ id: 'RecordsPage' });
export type RecordsPage = z.infer<typeof RecordsPage>;

/** The place and hash that the asker has read up to: another hash there is another history. */
const readUpTo = { after: count.default(0), hash: z.string().max(64).optional() };

export const AnimalRecordsAsked = z.object({ animal: AnimalId, ...readUpTo });
export const AnimalRecords = z
  .object({
    records: z.array(KeptOnWire),
    damaged: z.array(DamagedOnWire),
    head: Head,
    serverAt: InstantText,
  })
  .meta({ id: 'AnimalRecords' });

export const LotsLeft = z
  .object({
    lots: z.array(
      z.object({ lot: LotId, left: z.number().int().describe('Pieces; below zero when more was used than counted') }),
    ),
    place: z.number().int().describe('The place up to which records are counted'),
    hash: z.string(),
  })
  .meta({ id: 'LotsLeft' });

export const ChipsAsked = z.object(readUpTo);
export const ChipsPage = z
  .object({
    chips: z.array(ChipEntry).describe('All chip numbers of these animals, in place of what was known of them'),
    without: z.array(AnimalId).describe('Animals that had a number before and may have none now'),
    place: z.number().int().describe('Ask `after` this for what is new'),
    hash: z.string(),
  })
  .meta({ id: 'ChipsPage' });
export type ChipsPage = z.infer<typeof ChipsPage>;

export const DueStatusOnWire = z.enum([
  'due',
  'overdue',
  'to-confirm',
  'ended-missed',
  'when-needed',
  'not-yet',
  'on-hold',
  'complete',
  'aged-out',
  'not-recommended',
]);
export const DueAsked = z.object({
  on: CalendarDate.optional().describe('Day to work out; today when left out'),
  section: SectionId.optional(),
  schedule: ScheduleId.optional(),
  status: list(DueStatusOnWire).optional().describe('One or several, by comma'),
  until: CalendarDate.optional().describe('Only what is due on or before this day'),
  format: z.enum(['json', 'csv']).default('json'),
});

const day = CalendarDate.nullable();
export const DueLine = z
  .object({
    animal: AnimalId,
    label: z.string(),
    name: z.string(),
    section: SectionId.nullable(),
    sectionName: z.string(),
    kennel: z.string(),
    schedule: ScheduleId,
    scheduleName: z.string(),
    dose: z.number().int(),
    status: DueStatusOnWire,
    earliest: day,
    due: day,
    overdueAfter: day,
    latest: day,
    holdCode: z.string().nullable(),
    holdUntil: day,
    reason: z.string().describe('Why, in words'),
    protocol: z.string().describe('ID@VERSION of the signed protocol it comes from'),
    litter: z.string().nullable().describe('Name of its litter'),
  })
  .meta({ id: 'DueLine' });
export type DueLine = z.infer<typeof DueLine>;
export const DueList = z
  .object({
    on: CalendarDate,
    demo: z.boolean(),
    lines: z.array(DueLine),
    nothingBecause: z
      .string()
      .nullable()
      .describe(
        'Why nothing can be worked out as due: no signed protocol and formulary are in force; null when they are',
      ),
    unreadable: z
      .number()
      .int()
      .min(0)
      .describe('Records that cannot be read; what depends on them may be missing from the lines'),
  })
  .meta({ id: 'DueList' });

export const AnimalsAsked = z.object({
  section: SectionId.optional(),
  inCare: z.enum(['yes', 'no', 'all']).default('yes').describe('Still here, left, or both'),
  find: z.string().max(200).optional().describe('Words that all stand in the name, number, chip, litter or kennel'),
  limit: z.coerce.number().int().min(1).optional().describe('Most animals in the answer'),
});
export const AnimalLine = z
  .object({
    animal: AnimalId,
    label: z.string(),
    name: z.string(),
    litter: z.string().nullable(),
    section: SectionId.nullable(),
    kennel: z.string(),
    sex: z.string(),
    neutered: z.string(),
    bornEarliest: CalendarDate,
    bornLatest: CalendarDate,
    arrivedOn: CalendarDate,
    leftOn: day,
    leftHow: z.string().nullable(),
    chip: z.string().nullable().describe('Text, never a number'),
    weight_g: z.number().int().nullable(),
    weighedOn: day,
    originKey: z.string().nullable().describe('Its key in the file it was brought in from'),
  })
  .meta({ id: 'AnimalLine' });
export type AnimalLine = z.infer<typeof AnimalLine>;
export const AnimalList = z
  .object({ animals: z.array(AnimalLine), found: z.number().int().describe('How many there are in all') })
  .meta({ id: 'AnimalList' });

export const FlagsAsked = z.object({
  state: list(z.enum(['open', 'taken', 'answered'])).optional(),
  severity: z.enum(['stop', 'attention']).optional(),
  animal: AnimalId.optional(),
});
export const FlagLine = z
  .object({
    key: z.string(),
    code: z.string(),
    severity: z.enum(['stop', 'attention']),
    animal: AnimalId.nullable(),
    raisedAt: z.string(),
    state: z.enum(['open', 'taken', 'answered']),
    reason: z.string().describe('Why, in words'),
  })
  .meta({ id: 'FlagLine' });
export type FlagLine = z.infer<typeof FlagLine>;
export const FlagList = z.object({ flags: z.array(FlagLine) }).meta({ id: 'FlagList' });

export const PhotoKept = Photo.meta({ id: 'PhotoKept' });
export const PhotoNamed = z.object({ id: BlobId.describe('SHA-256 of the picture, hex') });
export const PictureKept = z.object({ id: BlobId }).meta({ id: 'PictureKept' });

/** One server-sent event `head`: there is something new to read. */
export interface HeadEvent {
  readonly seq: number;
  readonly receivedAt: string | null;
}
