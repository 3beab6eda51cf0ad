import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { noon } from '../../test/support/app.js';
import { shelterLog, wormed } from '../../test/support/shelter-log.js';
import { memoryStore } from '../store/memory/store.js';
import { grown } from './context.js';
import { bringToToday, watchTheDay } from './new-day.js';

const statusOf = async (store: ReturnType<typeof memoryStore>): Promise<string | undefined> =>
  (await store.rows('due_items', { animal: 'kit-1', schedule: 'roundworm' }))[0]?.status;

async function inChicago() {
  const store = memoryStore();
  const log = shelterLog(1, 'America/Chicago');
  await store.append([...log.records, ...log.add([wormed(1, noon)], 'ines')], noon);
  const time = { now: noon };
  const context = { store, clock: () => time.now, shelter: () => store.shelter(), grown: grown() };
  return { store, time, context };
}

describe('a new day (Verifies: LOG-R6)', () => {
  it('begins at midnight of the shelter, and is worked out once', async () => {
    const { store, time, context } = await inChicago();
    expect(await bringToToday(context)).toBe(false);
    time.now = '2026-03-03T05:59:59.000Z';
    expect(await bringToToday(context)).toBe(false);
    time.now = '2026-03-03T06:00:00.000Z';
    expect(await bringToToday(context)).toBe(true);
    expect((await store.head()).rowsOn).toBe('2026-03-03');
    expect(await bringToToday(context)).toBe(false);
  });

  it('moves what is due without a new record', async () => {
    const { store, time, context } = await inChicago();
    const { seq } = await store.head();
    expect(await statusOf(store)).toBe('not-yet');
    time.now = '2026-05-01T12:00:00.000Z';
    await bringToToday(context);
    expect(await statusOf(store)).toBe('overdue');
    expect((await store.head()).seq).toBe(seq);
  });

  describe('while the server runs', () => {
    beforeEach(() => {
      vi.useFakeTimers();
    });
    afterEach(() => {
      vi.useRealTimers();
    });

    it('is looked for, tells those who listen, and stops when told to', async () => {
      const { store, time, context } = await inChicago();
      const told: (string | null)[] = [];
      context.grown.listen(({ rowsOn }) => told.push(rowsOn));
      const stop = watchTheDay(context, (error) => {
        throw error;
      });
      await vi.advanceTimersByTimeAsync(60_000);
      expect(told).toEqual([]);
      time.now = '2026-03-03T12:00:00.000Z';
      await vi.advanceTimersByTimeAsync(60_000);
      expect(told).toEqual(['2026-03-03']);
      stop();
      time.now = '2026-03-04T12:00:00.000Z';
      await vi.advanceTimersByTimeAsync(60_000);
      expect((await store.head()).rowsOn).toBe('2026-03-03');
    });

    it('hands on trouble instead of ending the program', async () => {
      const { time, context } = await inChicago();
      const troubles: unknown[] = [];
      const full = new Error('full');
      const failing = { ...context, store: { ...context.store, append: () => Promise.reject(full) } };
      const stop = watchTheDay(failing, (error) => troubles.push(error));
      time.now = '2026-03-03T12:00:00.000Z';
      await vi.advanceTimersByTimeAsync(31_000);
      expect(troubles).toEqual([full]);
      stop();
    });
  });
});
