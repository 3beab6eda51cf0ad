import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { code, noon, shelter, value } from '../../test/support/app.js';
import { at } from '../../test/support/log.js';
import { shelterLog, weighed } from '../../test/support/shelter-log.js';
import { memoryStore } from '../store/memory/store.js';
import { headsOf } from '../store/tree-heads.js';
import { signDaily } from './sign-daily.js';

let data: string;
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-daily-'));
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

describe('the daily head (Verifies: HEAD-R2)', () => {
  it('is signed once on each day of the shelter', async () => {
    const log = shelterLog(2, 'Pacific/Auckland');
    const store = memoryStore();
    await store.append(log.records, noon);
    let now = noon;
    const heads = headsOf(store, data, () => now);
    const context = { heads, store, clock: () => now, shelter: () => store.shelter() };
    expect(await signDaily(context)).toBe(true);
    await store.append(log.add([weighed(1, 700, noon)]), noon);
    // The same day there: noon in UTC is one in the morning of the third of March in Auckland.
    now = at('2026-03-03', '10:59');
    expect(await signDaily(context)).toBe(false);
    now = at('2026-03-03', '11:01');
    expect(await signDaily(context)).toBe(true);
    expect(heads.kept().map(({ size }) => size)).toEqual([log.records.length - 1, log.records.length]);
  });

  it('is not signed without a shelter, nor where there is nowhere to keep it', async () => {
    const store = memoryStore();
    const context = { store, clock: () => noon, shelter: () => store.shelter() };
    expect(await signDaily({ ...context, heads: headsOf(store, data, () => noon) })).toBe(false);
    expect(await signDaily({ ...context, heads: null })).toBe(false);
  });
});

describe('a head that is asked for', () => {
  it('is given to whoever works there', async () => {
    const { as, store, log } = await shelter();
    expect(code(await as('ines').signedHead())).toBe('head-not-offered');
    const other = await shelter(3, 'UTC', { heads: headsOf(store, data, () => noon) });
    expect(value(await other.as('ines').signedHead())).toMatchObject({ size: log.records.length, at: noon });
    expect(code(await other.as(null).signedHead())).toBe('person-missing');
  });
});
