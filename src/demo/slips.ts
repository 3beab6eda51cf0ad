import type { Schedule } from '../core/protocol/document/document.js';
import type { BodyInput } from '../log/kinds/index.js';
import type { NotGivenReason } from '../log/kinds/treatment.js';

/** Which schedule is meant, by what it does, so that the script does not depend on the ids of one protocol. */
export type Part = 'vaccine' | 'worm' | 'flea' | 'test' | 'chip' | 'weighing';

export function partOf(schedule: Pick<Schedule, 'action' | 'satisfiedBy'>): Part | null {
  if (schedule.action === 'test') return 'test';
  if (schedule.action === 'chip') return 'chip';
  if (schedule.action === 'weigh') return 'weighing';
  if (schedule.satisfiedBy.some((one) => one.startsWith('core-vaccine'))) return 'vaccine';
  if (schedule.satisfiedBy.includes('roundworm')) return 'worm';
  return schedule.satisfiedBy.includes('topical-flea') ? 'flea' : null;
}

/** What goes otherwise than planned with one animal on one day. */
export type Slip = { readonly animal: string; readonly daysAgo: number } & (
  | {
      readonly what: 'not-given';
      readonly parts: readonly Part[];
      readonly reason: NotGivenReason;
      readonly note: string;
    }
  | { readonly what: 'draw-failed' }
  | { readonly what: 'test-shows'; readonly means: 'invalid' | 'reactive' }
  | { readonly what: 'read-late' }
  | { readonly what: 'chip-after-differs' }
  | { readonly what: 'weight-doubtful'; readonly share: number }
  | { readonly what: 'weight-typed-wrong' }
  | {
      readonly what: 'override';
      readonly reason: NonNullable<BodyInput<'animal-identified'>['reason']>;
      readonly note: string;
    }
  | { readonly what: 'other-animal-first'; readonly other: string }
  | { readonly what: 'test-abandoned'; readonly reason: string }
  | { readonly what: 'stop-passed'; readonly reason: string }
  | { readonly what: 'expired-vial' }
  | { readonly what: 'other-amount'; readonly more_ul: number }
  | { readonly what: 'partly-taken' }
  | { readonly what: 'wrong-card'; readonly card: string }
);
export type SlipKind = Slip['what'];

/**
 * The slips of six weeks. Those of yesterday and of the last days are still to be dealt with today; the older ones have
 * been answered at the desk.
 */
export const slips: readonly Slip[] = [
  // Dealt with.
  { animal: 'bittern', daysAgo: 28, what: 'other-animal-first', other: 'heron' },
  { animal: 'mallow', daysAgo: 27, what: 'test-abandoned', reason: 'The kit was knocked off the table.' },
  {
    animal: 'serin',
    daysAgo: 14,
    what: 'stop-passed',
    reason: 'The battery of the scale was empty; the veterinarian said on the phone to use the last weight.',
  },
  { animal: 'dill', daysAgo: 18, what: 'wrong-card', card: 'basil' },
  { animal: 'marjoram', daysAgo: 18, what: 'draw-failed' },
  { animal: 'hazel', daysAgo: 14, what: 'read-late' },
  { animal: 'siskin', daysAgo: 14, what: 'partly-taken' },
  { animal: 'campion', daysAgo: 11, what: 'weight-typed-wrong' },
  { animal: 'speedwell', daysAgo: 11, what: 'other-amount', more_ul: 50 },
  { animal: 'larch', daysAgo: 7, what: 'override', reason: 'no-reader', note: 'The reader was with the other team.' },
  // Still there today.
  {
    animal: 'yarrow',
    daysAgo: 11,
    what: 'not-given',
    parts: ['weighing', 'vaccine', 'worm'],
    reason: 'animal-not-found',
    note: 'Not in A2; found behind the cupboard afterwards.',
  },
  {
    animal: 'yarrow',
    daysAgo: 7,
    what: 'not-given',
    parts: ['weighing', 'vaccine', 'worm'],
    reason: 'refused-or-escaped',
    note: '',
  },
  {
    animal: 'yarrow',
    daysAgo: 4,
    what: 'not-given',
    parts: ['weighing', 'vaccine', 'worm'],
    reason: 'ran-out-of-time',
    note: '',
  },
  { animal: 'lovage', daysAgo: 4, what: 'expired-vial' },
  {
    animal: 'nightjar',
    daysAgo: 2,
    what: 'not-given',
    parts: ['test', 'chip', 'vaccine', 'worm', 'flea'],
    reason: 'animal-too-stressed',
    note: 'Hissing and hiding. Left in peace for two days.',
  },
  {
    animal: 'nightjar',
    daysAgo: 1,
    what: 'not-given',
    parts: ['test', 'chip', 'vaccine', 'worm', 'flea'],
    reason: 'animal-too-stressed',
    note: '',
  },
  {
    animal: 'vetch',
    daysAgo: 1,
    what: 'override',
    reason: 'known-to-the-team',
    note: 'Would not come out; we both know him.',
  },
  { animal: 'heron', daysAgo: 1, what: 'weight-doubtful', share: 0.55 },
  { animal: 'hyssop', daysAgo: 1, what: 'test-shows', means: 'invalid' },
  { animal: 'borage', daysAgo: 1, what: 'test-shows', means: 'reactive' },
  { animal: 'rue', daysAgo: 1, what: 'chip-after-differs' },
];

/** Weighed on yesterday's round although nothing else brings them onto it. */
export const weighedYesterday: readonly string[] = ['vetch', 'heron'];

/** The slip of one kind that this animal has on this day, or null. */
export function slipOf<K extends SlipKind>(
  animal: string | null,
  daysAgo: number,
  what: K,
): Extract<Slip, { what: K }> | null {
  const found = slips.find((slip) => slip.animal === animal && slip.daysAgo === daysAgo && slip.what === what);
  return (found ?? null) as Extract<Slip, { what: K }> | null;
}

/** Animals with a part in the story besides the slips. */
const parts: readonly string[] = ['fieldfare', 'magpie', 'knot', 'twite', 'lapwing', 'kestrel', 'sanderling', 'basil'];

/** Whether the script tells what happens to this animal: then nothing goes wrong with it by chance. */
export const isTold = (animal: string | null): boolean =>
  animal === null || parts.includes(animal) || slips.some((slip) => slip.animal === animal);
