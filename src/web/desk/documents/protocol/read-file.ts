import { type ZodError, type ZodType, z } from 'zod';
import { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';

export interface FileProblem {
  /** The way to it in names a reader finds in the file; empty for the file as a whole. */
  readonly where: string;
  readonly sentence: string;
}

export type ReadFile<D> =
  | { readonly ok: true; readonly document: D }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

export const readProtocolFile = (text: string): ReadFile<ProtocolDocument> => readDocumentFile(text, ProtocolDocument);

/** A document from the text of a file: whole, or every problem as a sentence with the way to it. Nothing is guessed. */
export function readDocumentFile<D>(text: string, shape: ZodType<D>): ReadFile<D> {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const detail = error instanceof Error ? error.message : '';
    return { ok: false, problems: [{ where: '', sentence: say('protocol-desk.not-json', { detail }) }] };
  }
  const read = shape.safeParse(raw);
  const fields = read.success ? read : plain(shape)?.safeParse(raw);
  const strange = fields?.success === true ? fieldsNotTaken(raw, fields.data, []) : [];
  const misspelt = strange.map((path) => {
    const where = wayInWords(raw, path);
    return { where, sentence: say('protocol-desk.unknown-field', { where }) };
  });
  if (read.success && misspelt.length === 0) return { ok: true, document: read.data };
  // A name that is misspelt comes first: what else is wrong often follows from it.
  return { ok: false, problems: [...misspelt, ...(read.success ? [] : problemsOf(raw, read.error))] };
}

/** The form alone, without what is checked between its parts. */
const plain = (shape: ZodType): ZodType | null => (shape instanceof z.ZodObject ? z.object(shape.shape) : null);

/**
 * Fields of the file that the document does not have. The schema would drop them without a word, and a limit with a
 * slip in its name would be gone.
 */
function fieldsNotTaken(raw: unknown, taken: unknown, path: readonly PropertyKey[]): PropertyKey[][] {
  if (typeof raw !== 'object' || raw === null || typeof taken !== 'object' || taken === null) return [];
  return Object.entries(raw).flatMap(([name, value]) => {
    const key = Array.isArray(raw) ? Number(name) : name;
    if (path.length === 0 && name === '$schema') return [];
    return Object.hasOwn(taken, name)
      ? fieldsNotTaken(value, Reflect.get(taken, name), [...path, key])
      : [[...path, key]];
  });
}

export function problemsOf(raw: unknown, error: ZodError): FileProblem[] {
  return error.issues.map(({ path, message }) => {
    const where = wayInWords(raw, path);
    return {
      where,
      sentence: say('protocol-desk.problem', {
        where: where === '' ? say('protocol-desk.whole-file') : where,
        message,
      }),
    };
  });
}

/** Entries of lists by their id, which is easier to find in a file than a place; by place, from 1, without one. */
function wayInWords(raw: unknown, path: readonly PropertyKey[]): string {
  const names: string[] = [];
  let value: unknown = raw;
  for (const key of path) {
    const inside: unknown = typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined;
    const id: unknown = typeof inside === 'object' && inside !== null ? Reflect.get(inside, 'id') : undefined;
    names.push(typeof key !== 'number' ? String(key) : typeof id === 'string' ? id : String(key + 1));
    value = inside;
  }
  return names.join(' › ');
}
