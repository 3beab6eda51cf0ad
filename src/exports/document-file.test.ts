import { expect, it } from 'vitest';
import { starterFormulary, starterProtocol } from '../../test/support/documents.js';
import { FormularyDocument } from '../core/dosing/formulary.js';
import { ProtocolDocument } from '../core/protocol/document/document.js';
import { documentFile } from './document-file.js';

it('a document comes out of its file as it went in, named by what it is and its version', () => {
  const [protocol, formulary] = [starterProtocol(), starterFormulary()];
  const files = [documentFile('protocol', protocol), documentFile('formulary', formulary)];
  expect(files.map(({ name }) => name)).toEqual([
    `protocol-${protocol.id}-${protocol.version}.json`,
    `formulary-${formulary.id}-${formulary.version}.json`,
  ]);
  expect(ProtocolDocument.parse(JSON.parse(files[0]?.text ?? ''))).toEqual(protocol);
  expect(FormularyDocument.parse(JSON.parse(files[1]?.text ?? ''))).toEqual(formulary);
});
