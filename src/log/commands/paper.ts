import type { KitType } from '../../core/dosing/formulary.js';
import type { AnimalId, KitTypeId, LotId, PersonId, RoundId, RunId, ScheduleId } from '../../core/ids.js';
import type { Seen } from '../../core/point-of-care/result.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { type Draft, draft, type LogRecord } from '../record.js';

/*
 * What stands on a sheet that was filled in by hand. It happened, so nothing is refused for looking wrong; what is not
 * written there stays unknown and is never filled up with what was printed, planned or usual.
 */

const of = (animal: AnimalId): string => `animal:${animal}`;

/** Who did it and who held, by what is written on the sheet. */
export interface PaperTeam {
  readonly by: PersonId;
  readonly with: PersonId | null;
}

/** The drafts as done by the people on the sheet; one that says already who did it keeps that. */
export const doneBy = (drafts: readonly Draft[], team: PaperTeam): Draft[] =>
  drafts.map((one) =>
    one.by !== undefined ? one : { ...one, by: team.by, ...(team.with === null ? {} : { with: team.with }) },
  );

/** That the animal was in somebody's hands by what the sheet says; nothing when it was made sure of before. */
export function identifiedOnPaper(animal: AnimalId, own: readonly LogRecord[], round: RoundId, at: string): Draft[] {
  const before = own.some(
    (record) => record.kind === 'animal-identified' && record.body.round === round && record.happenedAt <= at,
  );
  return before ? [] : [draft('animal-identified', of(animal), { round, by: 'paper', compared: [] }, at)];
}

export interface PaperTest {
  readonly run: RunId;
  readonly schedule: ScheduleId;
  readonly kit: KitType;
  readonly lot: LotId | null;
  /** As written; empty when it is not. */
  readonly kitLot: string;
  readonly conjugateLot: string;
  /** Instants as written; null when they are not. */
  readonly startedAt: string | null;
  readonly readAt: string | null;
  /** Null when the sheet has no reading. */
  readonly seen: Seen | null;
  readonly readBy: PersonId;
  /** Blood as written; null when it is not. */
  readonly volume_ul: number | null;
  readonly drops: number | null;
  /** The lot of ready-prepared syringes that is written there. */
  readonly syringeLot: LotId | null;
  readonly note: string;
  readonly round: RoundId;
  /** The day of the sheet, for what has no time. */
  readonly day: string;
  /** What a device has on record already. */
  readonly drawn: boolean;
  readonly started: boolean;
}

/**
 * A test as the sheet tells it: draw, start and reading at the times written there. Without a time its window cannot be
 * judged and it does not count; without a reading it is given up. Says no only when it would have been read before it
 * was started.
 */
export function testOnPaper(animal: AnimalId, test: PaperTest): Outcome<Draft[]> {
  const { run, schedule, kit, startedAt, readAt, round } = test;
  if (startedAt !== null && readAt !== null && readAt < startedAt) return no('ribbon.key-in.read-before-start');
  const starts = startedAt ?? readAt ?? test.day;
  const reads = readAt ?? starts;
  const drafts: Draft[] = [];
  if (!test.drawn) {
    const amount =
      test.volume_ul === null ? { volume_ul: kit.sample_ul, assumed: true } : { volume_ul: test.volume_ul };
    const sample = kit.samples[0] ?? 'whole-blood';
    drafts.push(
      draft(
        'sample-drawn',
        of(animal),
        { run, schedule, ...amount, usable: true, sample, syringeLot: test.syringeLot, round },
        starts,
      ),
    );
  }
  if (!test.started) {
    const body = {
      run,
      schedule,
      kitType: kit.id as KitTypeId,
      lot: test.lot,
      kitLot: test.kitLot,
      conjugateLot: test.conjugateLot,
      outOfColdAt: null,
      ...(startedAt === null ? { untimed: true } : {}),
      ...(test.drops === null ? {} : { drops: test.drops }),
      ...(test.note.trim() === '' ? {} : { note: test.note.trim() }),
      round,
    };
    drafts.push(draft('test-started', of(animal), body, starts));
  }
  if (test.seen === null) {
    drafts.push(
      draft(
        'test-abandoned',
        of(animal),
        { run, why: 'not-written', note: test.note.trim().slice(0, 300), round },
        reads,
      ),
    );
    return ok(drafts);
  }
  const missing = kit.zones.filter((zone) => test.seen?.[zone.id] === undefined);
  if (missing.length > 0) return no('log.zones-missing', { zones: { list: missing.map((zone) => zone.name) } });
  const reading = { run, seen: { ...test.seen }, round, ...(readAt === null ? { untimed: true } : {}) };
  drafts.push({ ...draft('test-read', of(animal), reading, reads), by: test.readBy });
  return ok(drafts);
}

/** A chip number as it was typed from the sheet. */
export interface TypedCode {
  readonly raw: string;
  readonly code: string;
  readonly class: string;
}

export interface PaperChip {
  readonly chip: TypedCode;
  readonly lot: LotId | null;
  /** A number, `none` found, or null when the sheet does not say. */
  readonly before: TypedCode | 'none' | null;
  readonly after: TypedCode | 'none' | null;
  readonly round: RoundId;
}

/** A chip as the sheet tells it. A scan that is not written there is not on the record, and stays to be done. */
export function chipOnSheet(animal: AnimalId, { chip, lot, before, after, round }: PaperChip, at: string): Draft[] {
  return [
    ...scanOnPaper(animal, 'before', before, round, at),
    draft('chip-implanted', of(animal), { code: chip.code, site: 'not-written', packScan: null, lot, round }, at),
    ...scanOnPaper(animal, 'after', after, round, at),
  ];
}

export function scanOnPaper(
  animal: AnimalId,
  occasion: 'before' | 'after',
  found: TypedCode | 'none' | null,
  round: RoundId,
  at: string,
): Draft[] {
  if (found === null) return [];
  const body = { target: 'animal' as const, occasion, found: found === 'none' ? null : found, typed: true, round };
  return [draft('chip-scanned', of(animal), body, at)];
}
