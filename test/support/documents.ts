import { readFileSync } from 'node:fs';
import { FormularyDocument } from '../../src/core/dosing/formulary.js';
import { ProtocolDocument } from '../../src/core/protocol/document/document.js';

const read = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../protocols/${name}`, import.meta.url), 'utf8'));

/** The starter documents as shipped. */
export const starterProtocol = (): ProtocolDocument => ProtocolDocument.parse(read('starter-protocol.json'));
export const starterFormulary = (): FormularyDocument => FormularyDocument.parse(read('starter-formulary.json'));
