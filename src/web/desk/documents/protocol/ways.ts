import { derived } from '../../../../core/derived.js';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { everyLine, nameIn } from '../protocol-lines.js';
import type { SourcedValue } from '../sourced.js';

/** A way into a document as in `core/protocol/paths`: field names, and ids inside lists. */
export type Way = readonly string[];

/** The way to every object of a document; an edit makes a new one. */
export const waysIn = derived((document: ProtocolDocument): ReadonlyMap<object, Way> => {
  const ways = new Map<object, Way>();
  const walk = (value: unknown, way: Way): void => {
    if (typeof value !== 'object' || value === null) return;
    ways.set(value, way);
    if (Array.isArray(value)) {
      for (const [at, item] of value.entries()) walk(item, [...way, nameOf(item, at)]);
    } else {
      for (const [key, item] of Object.entries(value)) walk(item, [...way, key]);
    }
  };
  walk(document, []);
  return ways;
});

const nameOf = (item: unknown, at: number): string =>
  typeof item === 'object' && item !== null && 'id' in item && typeof item.id === 'string' ? item.id : String(at);

export interface LineAt {
  readonly way: Way;
  readonly schedule: string;
  readonly line: SourcedValue;
}

/** Every sourced value of the schedules with the way to it, in the order in which they are read. */
export function linesAt(document: ProtocolDocument): LineAt[] {
  const ways = waysIn(document);
  return document.schedules.flatMap((schedule) =>
    everyLine(schedule, nameIn(document)).flatMap((line) => {
      const way = line.part === undefined ? undefined : ways.get(line.part);
      return way === undefined ? [] : [{ way, schedule: schedule.name, line }];
    }),
  );
}
