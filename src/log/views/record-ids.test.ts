import { expect, it } from 'vitest';
import { RecordId } from '../../core/ids.js';
import { noIds, withIds } from './record-ids.js';

const id = (n: number): RecordId => RecordId.parse(`r${n}`);

it('a set with more in it leaves the one before as it was, however often it grows', () => {
  let ids = noIds;
  const values = [ids];
  for (let n = 0; n < 1000; n += 1) {
    ids = withIds(ids, new Set([id(n)]));
    values.push(ids);
  }
  for (const at of [0, 1, 255, 256, 257, 258, 999, 1000]) {
    const value = values[at];
    expect(value?.size).toBe(at);
    expect(value?.has(id(at))).toBe(false);
    if (at > 0) expect(value?.has(id(at - 1)) && value.has(id(0))).toBe(true);
  }
  expect(withIds(ids, new Set())).toBe(ids);
});
