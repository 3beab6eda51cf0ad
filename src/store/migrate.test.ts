import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checksumOf } from './migrate.js';
import { migrations } from './migrations/index.js';

const manifest = JSON.parse(readFileSync(new URL('./migrations/manifest.json', import.meta.url), 'utf8')) as Record<
  string,
  { name: string; checksum: string }
>;

describe('the steps of the store (Verifies: LOG-R10)', () => {
  it('are numbered 1, 2, 3 without gaps', () => {
    expect(migrations.map(({ number }) => number)).toEqual(migrations.map((_, index) => index + 1));
    expect(migrations.length).toBeGreaterThan(0);
  });

  it('are what the manifest says: a step that was released never changes', () => {
    const now = migrations.map((step) => [String(step.number), { name: step.name, checksum: checksumOf(step) }]);
    expect(Object.fromEntries(now)).toEqual(manifest);
  });

  it('have another checksum when anything in them changes', () => {
    const [first] = migrations;
    if (first === undefined) throw new Error('no step');
    const changed = {
      ...first,
      statements: (schema: Parameters<typeof first.statements>[0]) => first.statements(schema).slice(1),
    };
    expect(checksumOf(changed)).not.toBe(checksumOf(first));
  });
});
