import type { SourceId } from '../../ids.js';
import type { Choice, ProtocolDocument } from './document.js';
import { sameValue } from './paths.js';

/** One value that two versions of a protocol do not share. */
export interface ChangedValue {
  /** The way to it, as in choices: field names, and ids inside lists. */
  readonly at: readonly string[];
  /** Left out on the side that does not have it. */
  readonly before?: unknown;
  readonly after?: unknown;
  /** The source that the value before rests on, from which the new one departs; null when it had none. */
  readonly departsFrom: SourceId | null;
  /** The source of the new value; null when there is none or the value is gone. */
  readonly restsOn: SourceId | null;
}

/** A choice that is answered otherwise. */
export interface ChangedChoice {
  readonly id: string;
  readonly question: string;
  readonly from: Choice['options'][number] | null;
  readonly to: Choice['options'][number];
}

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isSourced = (value: unknown): value is Fields & { source: SourceId } =>
  isFields(value) && typeof value.source === 'string' && typeof value.standing === 'string';

/**
 * Every value of the schedules and variants in which two versions differ, each with the source it departs from: that of
 * the sourced value it belongs to. What the schema adds by default counts as said. In the order of the newer version.
 */
export const changedValues = (before: ProtocolDocument, after: ProtocolDocument): ChangedValue[] => [
  ...changedParts(before.ageUnknown, after.ageUnknown, ['ageUnknown']),
  ...changedParts(before.keepApart, after.keepApart, ['keepApart']),
  ...changedParts(before.weightWatch, after.weightWatch, ['weightWatch']),
  ...changedParts(before.heldLong, after.heldLong, ['heldLong']),
  ...changedParts(before.countersign, after.countersign, ['countersign']),
  ...changedParts(before.schedules, after.schedules, ['schedules']),
  ...changedParts(before.variants, after.variants, ['variants']),
];

/**
 * The same for any part of a document; `at` is the way to it. `together`: what is shown as one statement and not field
 * by field, by default a sourced value with nothing sourced inside it.
 */
export function changedParts(
  before: unknown,
  after: unknown,
  at: readonly string[] = [],
  together: (value: unknown) => boolean = isLeaf,
): ChangedValue[] {
  const changes: ChangedValue[] = [];
  const compare = (at: readonly string[], old: unknown, now: unknown, sources: Sources): void => {
    if (sameValue(old, now)) return;
    const grounds: Sources = {
      old: isSourced(old) ? old.source : sources.old,
      now: isSourced(now) ? now.source : sources.now,
    };
    // A sourced value is one statement: its span and its source are shown together.
    const whole = together(old) && together(now);
    if (!whole && isFields(old) && isFields(now)) {
      for (const key of keysOf(now, old)) compare([...at, key], old[key], now[key], grounds);
    } else if (!whole && Array.isArray(old) && Array.isArray(now)) {
      const names = keysOf(byName(now), byName(old));
      for (const name of names) compare([...at, name], byName(old)[name], byName(now)[name], grounds);
    } else {
      changes.push({
        at,
        ...(old === undefined ? {} : { before: old }),
        ...(now === undefined ? {} : { after: now }),
        departsFrom: old === undefined ? null : grounds.old,
        restsOn: now === undefined ? null : grounds.now,
      });
    }
  };
  compare(at, before, after, { old: null, now: null });
  return changes;
}

interface Sources {
  readonly old: SourceId | null;
  readonly now: SourceId | null;
}

/** A sourced value with nothing sourced inside it, or nothing at all. */
const isLeaf = (value: unknown): boolean =>
  value === undefined || (isSourced(value) && !Object.values(value).some(hasSourced));

const hasSourced = (value: unknown): boolean =>
  isSourced(value) ||
  (Array.isArray(value) && value.some(hasSourced)) ||
  (isFields(value) && Object.values(value).some(hasSourced));

const keysOf = (first: Fields, second: Fields): string[] => [
  ...new Set([...Object.keys(first), ...Object.keys(second)]),
];

/** A list as fields: by the id of its entries, else by their place. */
const byName = (list: readonly unknown[]): Fields =>
  Object.fromEntries(
    list.map((item, at) => [isFields(item) && typeof item.id === 'string' ? item.id : String(at), item]),
  );

/** Choices that the newer version answers otherwise, with the option before when the older one had the choice. */
export function changedChoices(before: ProtocolDocument, after: ProtocolDocument): ChangedChoice[] {
  return after.choices.flatMap((choice): ChangedChoice[] => {
    const old = before.choices.find((one) => one.id === choice.id);
    if (old?.chosen === choice.chosen) return [];
    const to = choice.options.find((one) => one.id === choice.chosen);
    const from = old?.options.find((one) => one.id === old.chosen) ?? null;
    return to === undefined ? [] : [{ id: choice.id, question: choice.question, from, to }];
  });
}
