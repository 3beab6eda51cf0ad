import { gunzipSync } from 'node:zlib';
import { v7 } from 'uuid';
import { describe, expect, it } from 'vitest';
import { noon, server, shelter, value } from '../../test/support/app.js';
import { day } from '../../test/support/log.js';
import { shelterLog } from '../../test/support/shelter-log.js';
import { ChipsPage } from '../api/wire.js';
import { AnimalId } from '../core/ids.js';
import { chanceFrom } from '../core/route-plan/model/chance.js';
import { draft, type LogRecord } from '../log/record.js';
import type { LogStore } from '../log/store.js';
import { memoryStore } from '../store/memory/store.js';

const scanned = (kit: number, code: string, occasion: 'intake' | 'identify' = 'intake') =>
  draft(
    'chip-scanned',
    `animal:kit-${kit}`,
    { target: 'animal', occasion, found: { raw: code, code, class: 'iso' } },
    noon,
  );
const left = (kit: number) =>
  draft('animal-left', `animal:kit-${kit}`, { how: 'adopted', on: day('2026-03-02') }, noon);
const own = '036012345678901';

async function told(store: LogStore, records: readonly LogRecord[]): Promise<void> {
  await store.append(records, noon);
}

describe('the index of chips', () => {
  it('has every number ever recorded, what is new after a place, and what is no more (Verifies: LOG-R103)', async () => {
    const { log, store, as } = await shelter(3);
    const [first] = log.add([scanned(1, own), scanned(2, '4A12345678', 'identify'), left(1)], 'sol') as [LogRecord];
    await told(store, log.records);
    const all = value(await as('ines').chips());
    const kit1 = { animal: 'kit-1', label: '001', left: '2026-03-02', numbers: [{ code: own, is: 'carried' }] };
    const kit2 = { animal: 'kit-2', label: '002', left: null, numbers: [{ code: '4A12345678', is: 'read' }] };
    expect(all.chips).toEqual([kit1, kit2]);
    expect({ place: all.place, hash: all.hash }).toEqual({
      place: log.records.length,
      hash: (await store.head()).hash,
    });

    const since = { after: all.place, hash: all.hash };
    expect(value(await as('ines').chips(since)).chips).toEqual([]);
    await told(
      store,
      log.add([draft('record-withdrawn', first.subject, { reason: 'misread' }, noon, first.id)], 'sol'),
    );
    await told(store, log.add([scanned(3, '985112003456789')]));
    const more = value(await as('ines').chips(since));
    expect(more.without).toEqual(['kit-1']);
    expect(more.chips.map(({ animal }) => animal)).toEqual(['kit-3']);
    expect(await as('ines').chips({ after: all.place, hash: 'another' })).toMatchObject({ code: 'another-history' });
  });

  it('takes at most 40 bytes a chip on the wire (Verifies: LOG-R103)', async () => {
    const chance = chanceFrom(20260302);
    const count = 20_000;
    const digits = (many: number): string =>
      Array.from({ length: many }, () => String(Math.floor(chance.next() * 10))).join('');
    const prefixes = ['985141', '956000', '900113', '977200', '941000'];
    // Two a day for some thirty years, with ids as devices make them.
    const rows = Array.from({ length: count }, (_, index) => {
      const msecs = Date.UTC(1996, 0, 1) + index * 43_200_000 + Math.floor(chance.next() * 40_000_000);
      const random = Uint8Array.from({ length: 16 }, () => Math.floor(chance.next() * 256));
      const on = new Date(msecs + 40 * 86_400_000 * chance.next()).toISOString().slice(0, 10);
      return {
        code: `${prefixes[index % prefixes.length]}${digits(9)}`,
        animal: AnimalId.parse(v7({ msecs, random })),
        standing: 'carried' as const,
        label: `${on.slice(0, 4)}-${String(index % 1000).padStart(4, '0')}`,
        left_on: on,
      };
    });
    const store = memoryStore();
    await store.append(shelterLog(1).records, noon);
    const rowsOf: LogStore['rows'] = async (table, where) =>
      table === 'chip_numbers' ? (rows as never) : store.rows(table, where);
    const { app, asking } = await server({ store: { ...store, rows: rowsOf } });
    const headers = { ...asking('ines'), 'accept-encoding': 'gzip' };
    const answer = await app.inject({ method: 'GET', url: '/api/chips', headers });
    const page = ChipsPage.parse(JSON.parse(gunzipSync(answer.rawPayload).toString()));
    expect(page.chips.map(({ numbers }) => numbers[0]?.code)).toEqual(rows.map(({ code }) => code));
    expect(answer.rawPayload.length / count).toBeLessThanOrEqual(40);
    expect(answer.rawPayload.length / count).toBeGreaterThan(10);
  });
});
