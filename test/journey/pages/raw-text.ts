import formularyText from '../../../protocols/starter-formulary.json?raw';
import protocolText from '../../../protocols/starter-protocol.json?raw';
import { english } from '../../../src/words/english.js';

type Listed = readonly { readonly id: string }[];
const documentOf = (text: string): Readonly<Record<string, Listed>> => JSON.parse(text);
const { schedules = [] } = documentOf(protocolText);
const { products = [], kits = [], syringes = [] } = documentOf(formularyText);
const observed = 'desk.observation.';

/** Codes that could be taken for nothing else: several words tied by hyphens. */
const codes = new Set(
  [
    ...[...schedules, ...products, ...kits, ...syringes].map(({ id }) => id),
    ...Object.keys(english.messages).flatMap((key) => (key.startsWith(observed) ? [key.slice(observed.length)] : [])),
  ].filter((code) => code.includes('-')),
);

/**
 * What of a page's text is no word: keys of messages, ids of records, codes of the documents, holes in a sentence. The pages
 * of the documents themselves still name codes (docs/known-gaps.md).
 */
export function rawIn(text: string, path: string): string[] {
  const ofDocuments = path.startsWith('/documents');
  const tokens = new Set(text.split(/[\s,;:!?()"“”’]+/).map((token) => token.replace(/^[.]+|[.]+$/g, '')));
  return [...tokens].filter(
    (token) =>
      Object.hasOwn(english.messages, token) ||
      (!ofDocuments && codes.has(token)) ||
      /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/.test(token) ||
      /⟨\w+⟩/.test(token),
  );
}
