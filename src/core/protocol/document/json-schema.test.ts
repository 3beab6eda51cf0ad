import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { protocolJsonSchema } from './json-schema.js';
import { writeAt } from './paths.js';

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
