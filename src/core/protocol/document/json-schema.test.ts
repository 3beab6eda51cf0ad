import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { ProtocolDocument } from './document.js';
import { writeAt } from './paths.js';

/**
 * The form of a protocol file as JSON Schema, draft 2020-12, for editors and other programs. What a schema cannot say
 * (ids that must exist, choices that must be in force) is checked when a file is read.
 */
function protocolJsonSchema(): object {
  return {
    title: 'Protocol',
    description:
      'When treatments of cats in a shelter are due. Every value names its source and how far it may be trusted.',
    ...z.toJSONSchema(ProtocolDocument, { target: 'draft-2020-12', io: 'input' }),
  };
}

it('the schema in protocols/ is made from the one that reads protocols (npx vitest run -u makes it anew)', async () => {
  const text = `${JSON.stringify(protocolJsonSchema(), null, 2)}\n`;
  await expect(text).toMatchFileSnapshot('../../../../protocols/protocol.schema.json');
});

it('takes the starter protocol and refuses a value without a source', () => {
  const schema = z.fromJSONSchema(protocolJsonSchema() as never);
  const file: unknown = JSON.parse(
    readFileSync(new URL('../../../../protocols/starter-protocol.json', import.meta.url), 'utf8'),
  );
  expect(schema.safeParse(file).error?.issues ?? []).toEqual([]);
  const at = ['schedules', 'core-vaccine', 'holds', 'fever', 'source'];
  expect(schema.safeParse(writeAt(file, at, undefined)).success).toBe(false);
});
