import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Draft, draft } from '../../src/log/record.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { at, day, kitten } from '../support/log.js';
import { shelterLog, weighed, wormed } from '../support/shelter-log.js';

/** Statements that one append about an animal takes when so many records are there, and again when it is known. */
async function statementsAmong(records: number): Promise<{ readonly first: string[]; readonly again: string[] }> {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-statements-'));
  let seen: string[] = [];
  const open = async () => {
    const opened = await openStore(folder, { watch: ({ sql }) => seen.push(sql) });
    if (!opened.ok) throw new Error(JSON.stringify(opened.why));
    return opened.value;
  };
  const noon = at('2026-03-02', '12:00');
  try {
    const log = shelterLog(3);
    let store = await open();
    for (let animal = 0; log.records.length < records; animal += 1) log.add(formerAnimal(animal), 'sol');
    await store.append(log.records, noon);
    await store.upToDate();
    await store.close();
    // As after a restart: the animal is not known yet.
    store = await open();
    await store.shelter();
    await store.upToDate();
    seen = [];
    await store.append(log.add([wormed(1, noon)]), noon);
    const first = seen;
    await store.upToDate();
    seen = [];
    await store.append(log.add([weighed(1, 640, noon)]), noon);
    const again = seen;
    await store.close();
    return { first, again };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** An animal that came and left, with a chip and doses of the shelter's lot. */
function formerAnimal(n: number): Draft[] {
  const subject = `animal:former-${n}`;
  const code = `0360123456${String(n).padStart(5, '0')}`;
  const weighings = Array.from({ length: 14 }, (_, i) =>
    draft('animal-weighed', subject, { grams: 600 + 10 * i, entered: '' }, at('2026-03-01', `11:${i + 10}`)),
  );
  const worm = { schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'oral' } as never;
  return [
    draft('animal-taken-in', subject, kitten(`Former ${n}`, '2026-01-20'), at('2026-03-01', '10:00')),
    draft(
      'chip-scanned',
      subject,
      { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' } },
      at('2026-03-01', '10:01'),
    ),
    ...weighings,
    draft('treatment-given', subject, worm, at('2026-03-01', '12:00')),
    draft('animal-left', subject, { how: 'adopted', on: day('2026-03-02') }, at('2026-03-02', '09:00')),
  ];
}

describe('an append about an animal', () => {
  // 400,000 records take minutes to write: `npm run bench -- log` has them.
  it('takes the same statements among 2,000 records and among 40,000 (Verifies: LOG-R60)', async () => {
    const few = await statementsAmong(2_000);
    const many = await statementsAmong(40_000);
    expect(many).toEqual(few);
    expect(few.first.some((sql) => sql.includes('insert into "records"'))).toBe(true);
    expect(few.again.length).toBeLessThan(few.first.length);
    expect(few.again.length).toBeLessThanOrEqual(20);
  });
});
