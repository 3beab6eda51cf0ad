import { describe, expect, it } from 'vitest';
import { code, noon, shelter, value } from '../../test/support/app.js';
import { at } from '../../test/support/log.js';
import { weighed } from '../../test/support/shelter-log.js';
import type { Said } from '../core/said.js';
import { clocked } from '../log/device-clock.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import { settled } from '../log/settled-time.js';

const readBack = (raw: unknown): LogRecord => {
  const parsed = parseRecord(raw);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.why));
  return parsed.value;
};

describe('a server whose clock went back behind its own log (Verifies: LOG-R115)', () => {
  it('keeps what comes in, settles no time by its own, says so everywhere, and is quiet once it is right', async () => {
    const complained: Said[] = [];
    const { as, time, log, store } = await shelter(2, 'UTC', { complain: (what) => void complained.push(what) });
    expect(value(await as('sol').shelter())).toMatchObject({ serverBehind_ms: 0, told: [] });
    expect(complained).toEqual([]);
    // Two days behind: a battery is flat, and the network is not there yet.
    time.now = at('2026-02-28', '12:00');
    const told = [{ say: 'server.clock-back' }];
    expect(value(await as('sol').shelter())).toMatchObject({ serverBehind_ms: 2 * 24 * 3_600_000, told });
    expect(value(await as('sol').health()).told[0]).toMatch(
      /^The clock of the server lies 2 days behind its own records/,
    );
    const stampedAt = at('2026-03-02', '12:40');
    for (const grams of [600, 610]) {
      const answer = value(
        await as('ines', stampedAt).append({ records: log.add([weighed(1, grams, stampedAt)], 'ines') }),
      );
      expect(answer.outcomes).toMatchObject([{ outcome: 'stored' }]);
      // The phone is right: it is not told that it is fast.
      expect(answer.clock).toMatchObject({ skew_s: null, note: expect.stringContaining('The clock of the server') });
    }
    expect(complained.map(({ say }) => say)).toEqual(['server.clock-back']);
    const [kept] = (await store.read({ after: log.records.length - 1 })).map(readBack) as [LogRecord];
    expect(kept).toMatchObject({ receivedAt: noon, serverBehind_ms: 2 * 24 * 3_600_000 });
    expect(settled(kept)).toBe(kept);
    expect(clocked(kept)).toMatchObject({ byServer: stampedAt, ahead_ms: 0 });
    expect(value(await as('ines').due()).on).toBe('2026-03-02');
    expect(value(await as('sol').flags()).flags.filter((flag) => flag.code === 'server-clock-back')).toMatchObject([
      { animal: 'kit-1', state: 'open', reason: expect.stringContaining('lay 2 days behind') },
    ]);
    expect(value(await as('ines').records({ after: log.records.length - 1 })).records).toMatchObject([
      { serverBehind_ms: 2 * 24 * 3_600_000 },
    ]);
    time.now = at('2026-03-02', '13:00');
    expect(value(await as('sol').shelter())).toMatchObject({ serverBehind_ms: 0, told: [] });
    const late = log.add([weighed(2, 500, at('2026-03-02', '18:00'))], 'ines');
    expect(code(await as('ines').append({ records: late }))).toBe('ok');
    const [after] = (await store.read({ after: log.records.length - 1 })).map(readBack) as [LogRecord];
    expect(settled(after)).toMatchObject({ happenedAt: time.now, said: { by: 'arrival' } });
  });
});
