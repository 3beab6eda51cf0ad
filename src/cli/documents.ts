import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { FormularyDocument } from '../core/dosing/formulary.js';
import { ProtocolDocument } from '../core/protocol/document/document.js';
import { no, type Outcome, ok } from '../core/said.js';
import { projectFolder } from './project-folder.js';

const inProject = (name: string): string => join(projectFolder, 'protocols', name);

/** A protocol from a file; the starter protocol of the project when no file is named. */
export const readProtocol = (file = inProject('starter-protocol.json')): Outcome<ProtocolDocument> =>
  read(file, ProtocolDocument);

/** A formulary from a file; the starter formulary of the project when no file is named. */
export const readFormulary = (file = inProject('starter-formulary.json')): Outcome<FormularyDocument> =>
  read(file, FormularyDocument);

interface Shape<T> {
  readonly safeParse: (
    raw: unknown,
  ) => { success: true; data: T } | { success: false; error: { issues: readonly Issue[] } };
}
interface Issue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/** A file of JSON, or standard input for `-`. */
export function readJson(file: string): Outcome<unknown> {
  try {
    return ok(JSON.parse(readFileSync(file === '-' ? 0 : file, 'utf8')));
  } catch (error) {
    return no('cli.document-unreadable', { file, detail: error instanceof Error ? error.message : String(error) });
  }
}

function read<T>(file: string, shape: Shape<T>): Outcome<T> {
  const raw = readJson(file);
  if (!raw.ok) return raw;
  const parsed = shape.safeParse(raw.value);
  return parsed.success ? ok(parsed.data) : no('cli.document-malformed', { file, detail: firstIssue(parsed.error) });
}

/** The first thing that is wrong, with its place. */
export function firstIssue(error: { readonly issues: readonly Issue[] }): string {
  const [issue] = error.issues;
  if (issue === undefined) return '';
  const path = issue.path.map(String).join('.');
  return path === '' ? issue.message : `${path}: ${issue.message}`;
}
