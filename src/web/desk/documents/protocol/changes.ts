import { changedValues } from '../../../../core/protocol/document/compare.js';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { sameValue } from '../../../../core/protocol/document/paths.js';
import { say } from '../../../../words/say.js';
import type { SourcedValue } from '../sourced.js';
import { type LineAt, linesAt, type Way } from './ways.js';

/** One value of two versions side by side. */
export interface SideBySide {
  readonly key: string;
  readonly schedule: string;
  readonly what: string;
  readonly before: SourcedValue | null;
  readonly after: SourcedValue | null;
  readonly change: 'same' | 'changed' | 'new' | 'gone';
}

/** Every value of both versions, in the order of the newer one; what only the older one has follows its schedule's end. */
export function sideBySide(before: ProtocolDocument, after: ProtocolDocument): SideBySide[] {
  const [old, now] = [linesAt(before), linesAt(after)];
  const oldByKey = new Map(old.map((one) => [keyOf(one.way), one]));
  const nowKeys = new Set(now.map((one) => keyOf(one.way)));
  const rows = now.map((one): SideBySide => {
    const was = oldByKey.get(keyOf(one.way));
    const change = was === undefined ? 'new' : sameLine(was, one) ? 'same' : 'changed';
    return {
      key: keyOf(one.way),
      schedule: one.schedule,
      what: whatOf(one.line),
      before: was?.line ?? null,
      after: one.line,
      change,
    };
  });
  const gone = old
    .filter((one) => !nowKeys.has(keyOf(one.way)))
    .map(
      ({ way, schedule, line }): SideBySide => ({
        key: keyOf(way),
        schedule,
        what: whatOf(line),
        before: line,
        after: null,
        change: 'gone',
      }),
    );
  return [...rows, ...gone, ...restOf(before, after, [...old, ...now])];
}

const keyOf = (way: Way): string => way.join(' › ');

const whatOf = ({ what, where }: SourcedValue): string =>
  where === undefined ? what : say('desk.doc.in-place', { place: where, what });

/** What stands inside a value has a line of its own, so the words of the line are compared, not all of the part. */
const sameLine = (a: LineAt, b: LineAt): boolean => {
  const { part: _a, where: _c, ...was } = a.line;
  const { part: _b, where: _d, ...is } = b.line;
  return sameValue(was, is) && sameValue(own(a.line.part), own(b.line.part));
};

/** A part without the sourced values inside it. */
const own = (part: object | undefined): Record<string, unknown> =>
  Object.fromEntries(Object.entries(part ?? {}).filter(([, value]) => !hasSource(value)));

const hasSource = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  (('source' in value && 'standing' in value) || Object.values(value).some(hasSource));

/** Differences that no line shows: a switch, a trigger, the order on a visit, values for a time of higher risk. */
function restOf(before: ProtocolDocument, after: ProtocolDocument, lines: readonly LineAt[]): SideBySide[] {
  const shown = lines.map((one) => one.way);
  const begins = (short: Way, long: Way): boolean => short.every((name, at) => long[at] === name);
  return changedValues(before, after)
    .filter(({ at }) => !shown.some((way) => begins(way, at) || (at.length > 2 && begins(at, way))))
    .map((one): SideBySide => {
      const plain = (side: 'before' | 'after'): SourcedValue | null =>
        one[side] === undefined
          ? null
          : {
              what: '',
              value: textOf(one[side]),
              source: (side === 'before' ? one.departsFrom : one.restsOn) ?? '',
              standing: 'common-practice',
              note: '',
            };
      const [was, is] = [plain('before'), plain('after')];
      const schedule = [...after.schedules, ...before.schedules].find((each) => each.id === one.at[1])?.name ?? '';
      return {
        key: keyOf(one.at),
        schedule: one.at[0] === 'schedules' ? schedule : '',
        what: frameWords(one.at),
        before: was,
        after: is,
        change: was === null ? 'new' : is === null ? 'gone' : 'changed',
      };
    });
}

/** Fields without a source, by their last name; the way itself where there are no words for it. */
const frame = [
  'active',
  'name',
  'visitOrder',
  'satisfiedBy',
  'labelAge',
  'again',
  'upkeep',
  'times',
  'ageUnknown',
  'ends',
  'on',
  'from',
] as const;

function frameWords(at: readonly string[]): string {
  const inside = at.slice(at[0] === 'schedules' ? 2 : 0);
  // A list of texts differs entry by entry, and a trigger by its parts.
  const name = inside.map((one) => frame.find((word) => word === one)).findLast((word) => word !== undefined);
  const place = inside.filter((_, index) => ['series', 'targets'].includes(inside[index - 1] ?? '')).join(', ');
  if (name === undefined) return keyOf(inside);
  const what = say(`protocol-desk.frame.${name}`);
  return place === '' ? what : say('desk.doc.in-place', { place, what });
}

const textOf = (value: unknown): string => {
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > 160 ? `${text.slice(0, 160)} …` : text;
};
