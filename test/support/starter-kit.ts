import starter from '../../protocols/starter-formulary.json?raw';
import { FormularyDocument, type KitType } from '../../src/core/dosing/formulary.js';

/** The kit of the starter formulary, for tests that run in a browser and cannot read a file. */
export const starterKit: KitType = (() => {
  const [kit] = FormularyDocument.parse(JSON.parse(starter)).kits;
  if (kit === undefined) throw new Error('the starter formulary has no kit');
  return kit;
})();
