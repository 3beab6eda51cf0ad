import { readFileSync } from 'node:fs';
import { FormularyDocument } from '../../src/core/dosing/formulary.js';
import { ProtocolDocument } from '../../src/core/protocol/document/document.js';

const read = (name: string): unknown => JSON.parse(readFileSync(`protocols/${name}.json`, 'utf8'));
export const protocol = ProtocolDocument.parse(read('starter-protocol'));
export const formulary = FormularyDocument.parse(read('starter-formulary'));
