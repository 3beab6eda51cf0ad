import { derived } from '../../derived.js';
import { ProtocolDocument } from './document.js';
import { writeAt } from './paths.js';

/**
 * The protocol with the values of one of its signed variants in force; null when it has no such variant, or its values
 * do not fit. Choices are left out: what is in force is no longer what they say.
 */
export const withVariant = derived((protocol: ProtocolDocument, id: string): ProtocolDocument | null => {
  const variant = protocol.variants.find((one) => one.id === id);
  const written = variant?.values.reduce<unknown>((document, { at, value }) => writeAt(document, at, value), {
    ...protocol,
    choices: [],
  });
  const read = written === undefined ? null : ProtocolDocument.safeParse(written);
  return read?.success === true ? read.data : null;
});
