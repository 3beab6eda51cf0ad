import { no, type Outcome, ok } from '../../said.js';
import { ProtocolDocument } from './document.js';
import { writeAt } from './paths.js';

/**
 * The protocol with another option chosen: the option's values written into the schedules and the choice noted.
 * The result is a draft under the same id and needs a version and a signature of its own.
 * Refuses an option that is not there, or values that do not fit the form of a protocol.
 */
export function choose(protocol: ProtocolDocument, choiceId: string, optionId: string): Outcome<ProtocolDocument> {
  const choice = protocol.choices.find((one) => one.id === choiceId);
  const option = choice?.options.find((one) => one.id === optionId);
  if (choice === undefined || option === undefined) {
    return no('due.choice.unknown', { choice: choiceId, option: optionId });
  }
  const written = option.values.reduce<unknown>((document, { at, value }) => writeAt(document, at, value), protocol);
  const noted = writeAt(written, ['choices', choiceId, 'chosen'], optionId);
  const read = ProtocolDocument.safeParse(noted);
  if (!read.success) return no('due.choice.does-not-fit', { detail: read.error.issues[0]?.message ?? '' });
  return ok(read.data);
}
