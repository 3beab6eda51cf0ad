import { z } from 'zod';
import { SectionRank } from '../../core/biosecurity/section.js';
import { ZoneName } from '../../core/calendar.js';
import { PersonId, SectionId } from '../../core/ids.js';
import { Role } from '../../core/people.js';

/** The shelter itself: its name, its zone, how its people read weights. */
export const ShelterDescribed = z.object({
  name: z.string().min(1).max(120),
  zone: ZoneName,
  weightUnit: z.enum(['g', 'kg', 'lb']),
  /** True for the invented shelter: every page says so. */
  demo: z.boolean(),
});

/** A part of the shelter with one infection rank, visited as one stop of a round. */
export const SectionDescribed = z.object({
  section: SectionId,
  name: z.string().min(1).max(80),
  rank: SectionRank,
  /** Order among sections of the same rank. */
  position: z.number().int().min(0),
  kennels: z.array(z.string().min(1).max(20)),
  /** What to put on before going in, in order: catalogue keys of src/words (`wear.gown`) or plain text. */
  wear: z.array(z.string().min(1).max(80)),
  /** What is taken off, washed or wiped on leaving, in order. */
  leave: z.array(z.string().min(1).max(120)),
  /** Minutes that the disinfectant must stay wet. */
  contactMinutes: z.number().int().min(0).max(120),
  closed: z.boolean().default(false),
});

/** That somebody works here, and as what. Who it is stands on the private side (src/log/private-side.ts). */
export const PersonDescribed = z.object({
  person: PersonId,
  role: Role,
  active: z.boolean().default(true),
});
