import 'fake-indexeddb/auto';
import { afterAll, expect, it } from 'vitest';
import { PersonId } from '../../core/ids.js';
import { openDb } from '../db.js';
import { checkPin, keepPin, mostWrong } from './pins.js';

const db = openDb('pins');
afterAll(() => db.close());
const [ines, sol] = [PersonId.parse('ines'), PersonId.parse('sol')];
const salt = '00112233445566778899aabbccddeeff';

it('a PIN is checked on a device for who signed in there by it, and five times only (Verifies: LOG-R213)', async () => {
  expect(await checkPin(db, ines, '402917')).toBe('not-here');
  await keepPin(db, ines, '402917', salt);
  expect(await checkPin(db, sol, '402917')).toBe('not-here');
  for (let time = 1; time < mostWrong; time += 1) expect(await checkPin(db, ines, '000001')).toBe('wrong');
  // A right one in between begins the count anew.
  expect(await checkPin(db, ines, '402917')).toBe('right');
  for (let time = 1; time <= mostWrong; time += 1) expect(await checkPin(db, ines, '000001')).toBe('wrong');
  expect(await checkPin(db, ines, '402917')).toBe('used-up');
  // Tries side by side count each.
  await keepPin(db, ines, '402917', salt);
  const all = await Promise.all(Array.from({ length: mostWrong + 2 }, () => checkPin(db, ines, '000001')));
  expect(all.filter((one) => one === 'wrong')).toHaveLength(mostWrong);
  expect(JSON.stringify(await db.meta.toArray())).not.toContain('402917');
});
