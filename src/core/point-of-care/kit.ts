import { Temporal } from 'temporal-polyfill';
import type { KitType } from '../dosing/formulary.js';
import { no, type Outcome, ok, type Said, said } from '../said.js';

/** Whether a kit may be used, by the time it has been out of the cold. */
export type Readiness =
  | { readonly is: 'ready'; readonly until: string | null }
  | { readonly is: 'warming'; readonly readyAt: string; readonly remaining_s: number; readonly why: Said }
  | { readonly is: 'out-too-long'; readonly since: string; readonly why: Said }
  | { readonly is: 'unknown'; readonly why: Said };

type Warming = Pick<KitType, 'name' | 'warmMinutes' | 'warmLimitMinutes'>;

/**
 * Whether a kit has reached room temperature. `outOfColdAt`: instant it left the cold, null when nobody noted it (then
 * it is unknown unless this kind needs no warming). Ready from the exact minute on, up to and including the limit.
 */
export function kitReady(kit: Warming, outOfColdAt: string | null, now: string): Readiness {
  if (outOfColdAt === null) {
    if (kit.warmMinutes === 0 && kit.warmLimitMinutes === null) return { is: 'ready', until: null };
    return { is: 'unknown', why: said('test.kit-cold-unknown', { kit: kit.name, minutes: kit.warmMinutes }) };
  }
  const out = Temporal.Instant.from(outOfColdAt);
  const readyAt = out.add({ minutes: kit.warmMinutes });
  const remaining_s = secondsUntil(now, readyAt.toString());
  if (remaining_s > 0) {
    const why = said('test.kit-warming', { kit: kit.name, at: { instant: readyAt.toString() } });
    return { is: 'warming', readyAt: readyAt.toString(), remaining_s, why };
  }
  if (kit.warmLimitMinutes === null) return { is: 'ready', until: null };
  const until = out.add({ minutes: kit.warmLimitMinutes }).toString();
  if (secondsUntil(now, until) >= 0) return { is: 'ready', until };
  const why = said('test.kit-out-too-long', { kit: kit.name, minutes: kit.warmLimitMinutes });
  return { is: 'out-too-long', since: until, why };
}

/** Whole seconds from `now` to an instant, rounded up; 0 at it, negative after it. */
export function secondsUntil(now: string, instant: string): number {
  const ms = Temporal.Instant.from(instant).epochMilliseconds - Temporal.Instant.from(now).epochMilliseconds;
  // `+ 0` so that a zero is never the negative one.
  return Math.ceil(ms / 1000) + 0;
}

/**
 * Whether box and conjugate belong together. Returns the lot both carry. Compared without regard to case and blanks, as
 * text: `0012` is not `12`. A missing lot is refused, since nobody can tell.
 */
export function lotsMatch(
  kit: Pick<KitType, 'name' | 'conjugateLotMustMatch'>,
  kitLot: string,
  conjugateLot: string,
): Outcome<string> {
  const box = lotText(kitLot);
  if (box === '') return no('test.lot-missing-kit', { kit: kit.name });
  if (!kit.conjugateLotMustMatch) return ok(box);
  const bottle = lotText(conjugateLot);
  if (bottle === '') return no('test.lot-missing-conjugate', { kit: kit.name });
  if (bottle !== box) return no('test.lots-differ', { kit: kit.name, box: kitLot.trim(), bottle: conjugateLot.trim() });
  return ok(box);
}

/** Whether two lots that were written down are not the same; of one that nobody wrote down it is not known. */
export const lotsDiffer = (one: string, other: string): boolean =>
  lotText(one) !== '' && lotText(other) !== '' && lotText(one) !== lotText(other);

/** Whether two lots that were written down are the same, compared as `lotsMatch` does; one that is missing is like none. */
export const sameLot = (one: string, other: string): boolean => lotText(one) !== '' && lotText(one) === lotText(other);

const lotText = (lot: string): string => lot.replace(/\s+/g, '').toUpperCase();
