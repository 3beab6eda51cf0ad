import { ProtocolDocument } from './document.js';
import { writeAt } from './paths.js';

const made = new WeakMap<ProtocolDocument, Map<string, ProtocolDocument | null>>();

/**
 * The protocol with the values of one of its signed variants in force; null when it has no such variant, or its values
 * do not fit. Made once for each document. Choices are left out: what is in force is no longer what they say.
 */
export function withVariant(protocol: ProtocolDocument, id: string): ProtocolDocument | null {
  const known = made.get(protocol) ?? new Map<string, ProtocolDocument | null>();
  made.set(protocol, known);
  const before = known.get(id);
  if (before !== undefined) return before;
  const variant = protocol.variants.find((one) => one.id === id);
  const written = variant?.values.reduce<unknown>((document, { at, value }) => writeAt(document, at, value), {
    ...protocol,
    choices: [],
  });
  const read = written === undefined ? null : ProtocolDocument.safeParse(written);
  const result = read?.success === true ? read.data : null;
  known.set(id, result);
  return result;
}
