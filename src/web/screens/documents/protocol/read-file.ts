import type { ZodError } from 'zod';
import { ProtocolDocument } from '../../../../core/protocol/document.js';
import { say } from '../../../../words/say.js';

export interface FileProblem {
  /** The way to it in names a reader finds in the file; empty for the file as a whole. */
  readonly where: string;
  readonly sentence: string;
}

export type ReadFile =
  | { readonly ok: true; readonly document: ProtocolDocument }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

/** A protocol from the text of a file: whole, or every problem as a sentence with the way to it. Nothing is guessed. */
export function readProtocolFile(text: string): ReadFile {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const detail = error instanceof Error ? error.message : '';
    return { ok: false, problems: [{ where: '', sentence: say('protocol-desk.not-json', { detail }) }] };
  }
  const read = ProtocolDocument.safeParse(raw);
  return read.success ? { ok: true, document: read.data } : { ok: false, problems: problemsOf(raw, read.error) };
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
