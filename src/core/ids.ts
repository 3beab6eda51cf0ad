import { z } from 'zod';

/**
 * Identifiers. All are text, never numbers (a chip or a lot that starts with 0 must keep it), and each has
 * its own type so that a lot cannot be passed where an animal is meant.
 */
const text = z.string().min(1).max(80);

export const RecordId = text.brand<'RecordId'>();
export type RecordId = z.infer<typeof RecordId>;
export const ShelterId = text.brand<'ShelterId'>();
export type ShelterId = z.infer<typeof ShelterId>;
export const AnimalId = text.brand<'AnimalId'>();
export type AnimalId = z.infer<typeof AnimalId>;
export const LitterId = text.brand<'LitterId'>();
export type LitterId = z.infer<typeof LitterId>;
export const PersonId = text.brand<'PersonId'>();
export type PersonId = z.infer<typeof PersonId>;
export const SectionId = text.brand<'SectionId'>();
export type SectionId = z.infer<typeof SectionId>;
export const LotId = text.brand<'LotId'>();
export type LotId = z.infer<typeof LotId>;
export const RoundId = text.brand<'RoundId'>();
export type RoundId = z.infer<typeof RoundId>;
/** One run of one point-of-care test on one animal, from the draw to the reading. */
export const RunId = text.brand<'RunId'>();
export type RunId = z.infer<typeof RunId>;
export const DeviceId = text.brand<'DeviceId'>();
export type DeviceId = z.infer<typeof DeviceId>;

/** Names inside the signed documents: chosen by people, stable over versions, e.g. `core-vaccine`. */
const slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case words joined by hyphens')
  .max(60);

export const ScheduleId = slug.brand<'ScheduleId'>();
export type ScheduleId = z.infer<typeof ScheduleId>;
export const ProductId = slug.brand<'ProductId'>();
export type ProductId = z.infer<typeof ProductId>;
export const KitTypeId = slug.brand<'KitTypeId'>();
export type KitTypeId = z.infer<typeof KitTypeId>;
export const SyringeId = slug.brand<'SyringeId'>();
export type SyringeId = z.infer<typeof SyringeId>;
/** A published source, key of `reference/sources.json` and of the source list inside a signed document. */
export const SourceId = slug.brand<'SourceId'>();
export type SourceId = z.infer<typeof SourceId>;
