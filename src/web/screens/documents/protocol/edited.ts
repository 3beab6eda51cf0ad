import type { Source, Standing } from '../../../../core/dosing/formulary.js';
import { SourceId } from '../../../../core/ids.js';
import type { Choice, ProtocolDocument } from '../../../../core/protocol/document.js';
import { ProtocolDocument as Document } from '../../../../core/protocol/document.js';
import { readAt, sameValue, writeAt } from '../../../../core/protocol/paths.js';
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
  const written = writeAt(document, way, value) as ProtocolDocument;
  const settled = { ...written, choices: written.choices.map((choice) => settle(written, choice, grounds)) };
  return read(settled);
}

function read(raw: unknown): Edited {
  const result = Document.safeParse(raw);
  return result.success ? { ok: true, document: result.data } : { ok: false, problems: problemsOf(raw, result.error) };
}

const ownOption = 'own';

function settle(document: ProtocolDocument, choice: Choice, { source, standing }: Grounds): Choice {
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
  const own = { id: ownOption, words, values, source: SourceId.parse(source), standing, note: '' };
  return { ...choice, options: [...published, own], chosen: ownOption };
}

/** The title, caution, number and switches of a protocol, which have no source of their own. */
export const withHead = (
  document: ProtocolDocument,
  head: Partial<Pick<ProtocolDocument, 'title' | 'caution' | 'version'>>,
): Edited => read({ ...document, ...head });

/** A schedule under another name, or used or not used in this shelter. */
export const withSchedule = (
  document: ProtocolDocument,
  id: string,
  part: { name?: string; active?: boolean },
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
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);
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
