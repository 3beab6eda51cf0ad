import { z } from 'zod';
import { CalendarDate, InstantText } from '../../core/calendar.js';
import { AnimalId, PersonId, RecordId, ScheduleId, SectionId } from '../../core/ids.js';
import { PlannedRibbon } from './ribbon.js';

/** The round as prepared: which sections, who, and what is to be done to whom. Subject `round:ID`. */
export const RoundPlanned = z.object({
  on: CalendarDate,
  sections: z.array(SectionId).min(1),
  treater: PersonId,
  holder: PersonId.nullable(),
  startsAt: InstantText.nullable().default(null),
  /** In the order of the plan; a line's place is also its number on the treatment sheet. */
  lines: z.array(z.object({ animal: AnimalId, schedules: z.array(ScheduleId) })),
  /** When the shift ends, if that ends the round. */
  endsAt: InstantText.nullable().optional(),
  /** The plan, if one was made. */
  ribbon: PlannedRibbon.optional(),
});

export const RoundBegun = z.object({});

/** The team changed during the round. */
export const TeamChanged = z.object({ treater: PersonId, holder: PersonId.nullable() });

export const SectionEntered = z.object({
  section: z.string().min(1),
  /** What was put on, as confirmed item by item. */
  worn: z.array(z.string().max(80)),
  /** Given when the team goes back from a sicker section to a cleaner one. */
  wentBackBecause: z.string().max(300).default(''),
});

export const SectionLeft = z.object({ section: z.string().min(1), cleaned: z.array(z.string().max(120)) });

/**
 * Both people have fresh gloves on. `after`: the records of hands on animals since the last fresh ones, so that no clock
 * decides what the change comes after, and two phones of a team that note the same change are seen to say one thing.
 */
export const GlovesChanged = z.object({
  /** The entering of the section in which it was. */
  visit: RecordId.nullable(),
  before: AnimalId,
  why: z.enum(['first', 'litter', 'reactive', 'lamp']),
  after: z.array(RecordId).max(1000),
});

/** The animal was made sure of before anything was done. Subject `animal:ID`. */
export const AnimalIdentified = z.object({
  round: z.string().nullable(),
  /** `paper`: keyed in from a sheet, which does not say how it was made sure of; no proof on any device. */
  by: z.enum(['chip', 'marks', 'override', 'paper']),
  /** What was compared: collar, coat, mark, photo, sex ... */
  compared: z.array(z.string().max(40)),
  reason: z
    .enum([
      '',
      'no-reader',
      'chip-unreadable',
      'collar-lost',
      'marks-alike',
      'label-unreadable',
      'known-to-the-team',
      'other',
    ])
    .default(''),
  /** Chips read on it that were not its own, which the team knew of when it made sure of it: this is the answer. */
  answers: z.array(RecordId).max(50).default([]),
  note: z.string().max(300).default(''),
});

export const HandedBack = z.object({
  done: z.number().int().min(0),
  notDone: z.number().int().min(0),
  abnormal: z.number().int().min(0),
  note: z.string().max(2000).default(''),
});

export const HandBackAccepted = z.object({ note: z.string().max(2000).default('') });
