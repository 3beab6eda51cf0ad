import type { FormularyDocument } from '../core/dosing/formulary.js';
import type { ProtocolDocument } from '../core/protocol/document/document.js';
import type { WrittenFile } from './file.js';

/** A protocol or formulary as a person edits it with other tools and the desk reads it back: JSON, laid out in lines. */
export const documentFile = (
  kind: 'protocol' | 'formulary',
  document: ProtocolDocument | FormularyDocument,
): WrittenFile => ({
  name: `${kind}-${document.id}-${document.version}.json`,
  type: 'application/json',
  text: `${JSON.stringify(document, null, 2)}\n`,
});
