import { z } from 'zod';
import { ProtocolDocument } from './document.js';

/**
 * The form of a protocol file as JSON Schema, draft 2020-12, for editors and other programs. What a schema cannot say
 * (ids that must exist, choices that must be in force) is checked when a file is read.
 */
export function protocolJsonSchema(): object {
  return {
    title: 'Protocol',
    description:
      'When treatments of cats in a shelter are due. Every value names its source and how far it may be trusted.',
    ...z.toJSONSchema(ProtocolDocument, { target: 'draft-2020-12', io: 'input' }),
  };
}
