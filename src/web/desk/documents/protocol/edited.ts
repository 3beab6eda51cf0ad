import type { Source, Standing } from '../../../../core/dosing/formulary.js';
import { SourceId } from '../../../../core/ids.js';
import type { Choice, ProtocolDocument, Schedule } from '../../../../core/protocol/document/document.js';
import { ProtocolDocument as Document } from '../../../../core/protocol/document/document.js';
import { readAt, sameValue, writeAt } from '../../../../core/protocol/document/paths.js';
import { say } from '../../../../words/say.js';
import { type FileProblem, problemsOf } from './read-file.js';
import type { Way } from './ways.js';

export type Edited =
  | { readonly ok: true; readonly document: ProtocolDocument }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

interface Grounds {
  readonly source: string;
  readonly standing: Standing;
}

/**
 * A protocol with another value where the way leads. Choices follow: the option whose values are now in force is the
 * chosen one; when none is, an option of this version's own says so and keeps the published ones beside it.
 */
export function withValue(document: ProtocolDocument, way: Way, value: unknown, grounds: Grounds): Edited {
  return read(settled(put(document, way, value), grounds));
}

/** The same for what has no source of its own: a trigger, an order, what an interval is counted from. */
export const withFrame = (document: ProtocolDocument, way: Way, value: unknown): Edited =>
  read(settled(put(document, way, value), null));

/** A protocol without the value where the way leads; refused where the schema or a choice needs it. */
export const withoutValue = (document: ProtocolDocument, way: Way): Edited =>
  read(settled(put(document, way, undefined), null));

const settled = (written: ProtocolDocument, grounds: Grounds | null): ProtocolDocument => ({
  ...written,
  choices: written.choices.map((choice) => settle(written, choice, grounds)),
});

/** Written where it is, added where only its parent is, or taken out of its parent when it is `undefined`. */
function put(document: ProtocolDocument, way: Way, value: unknown): ProtocolDocument {
  const last = way.at(-1);
  const parentWay = way.slice(0, -1);
  const parent = readAt(document, parentWay);
  if (last === undefined || !parent.found) return document;
  if (Array.isArray(parent.value)) {
    if (value !== undefined) return writeAt(document, way, value) as ProtocolDocument;
    const gone = readAt(document, way);
    const rest = parent.value.filter((one) => !gone.found || one !== gone.value);
    return writeAt(document, parentWay, rest) as ProtocolDocument;
  }
  const { [last]: _, ...others } = parent.value as Record<string, unknown>;
  const next = value === undefined ? others : { ...(parent.value as Record<string, unknown>), [last]: value };
  return writeAt(document, parentWay, next) as ProtocolDocument;
}

function read(raw: unknown): Edited {
  const result = Document.safeParse(raw);
  return result.success ? { ok: true, document: result.data } : { ok: false, problems: problemsOf(raw, result.error) };
}

const ownOption = 'own';

function settle(document: ProtocolDocument, choice: Choice, grounds: Grounds | null): Choice {
  const inForce = (option: Choice['options'][number]): boolean =>
    option.values.every(({ at, value }) => {
      const found = readAt(document, at);
      return found.found && sameValue(found.value, value);
    });
  const chosen = choice.options.find((option) => option.id === choice.chosen);
  if (chosen === undefined || inForce(chosen)) return choice;
  const published = choice.options.filter((option) => option.id !== ownOption);
  const other = published.find((option) => option.values.length > 0 && inForce(option));
  if (other !== undefined) return { ...choice, options: published, chosen: other.id };
  const values = chosen.values.flatMap(({ at }) => {
    const found = readAt(document, at);
    return found.found ? [{ at, value: found.value as (typeof chosen.values)[number]['value'] }] : [];
  });
  const words = say('protocol-desk.own-option');
  const source = grounds === null ? chosen.source : SourceId.parse(grounds.source);
  const standing = grounds?.standing ?? 'common-practice';
  const own = { id: ownOption, words, values, source, standing, note: '' };
  return { ...choice, options: [...published, own], chosen: ownOption };
}

/** The title, caution, number and switches of a protocol, which have no source of their own. */
export const withHead = (
  document: ProtocolDocument,
  head: Partial<Pick<ProtocolDocument, 'title' | 'caution' | 'version' | 'ageUnknown'>>,
): Edited => read({ ...document, ...head });

/** A schedule under another name, or used or not used in this shelter. */
export const withSchedule = (
  document: ProtocolDocument,
  id: string,
  part: Partial<Pick<Schedule, 'name' | 'active' | 'visitOrder' | 'satisfiedBy' | 'labelAge'>>,
): Edited =>
  read({
    ...document,
    schedules: document.schedules.map((schedule) => (schedule.id === id ? { ...schedule, ...part } : schedule)),
  });

/** A source more; its id is made from its title, and is one that no other source has. */
export function withSource(
  document: ProtocolDocument,
  source: Omit<Source, 'id'>,
): { document: ProtocolDocument; id: SourceId } {
  const plain = source.title
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 40)
    .replace(/^-+|-+$/g, '');
  const stem = plain === '' ? 'source' : plain;
  const taken = new Set<string>(document.sources.map((one) => one.id));
  let id = stem;
  for (let n = 2; taken.has(id); n += 1) id = `${stem}-${n}`;
  const made = SourceId.parse(id);
  return { document: { ...document, sources: [...document.sources, { ...source, id: made }] }, id: made };
}

/** The next whole number: `1-demo` counts as 1. */
export function nextVersion(taken: readonly string[]): string {
  const numbers = taken.map((one) => Number.parseInt(one, 10)).filter(Number.isInteger);
  return String(Math.max(0, ...numbers) + 1);
}
