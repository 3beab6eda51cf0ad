import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ScanQueue } from './scan-queue.js';

/** All that the page does between two frames, by a clock of our own: no machine is too busy for it. */
const drawn = async (): Promise<void> => {
  await vi.advanceTimersByTimeAsync(5);
};

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('scans waiting for a screen', () => {
  it('hands each on at once, to the last one who asked', async () => {
    const queue = new ScanQueue();
    const page: string[] = [];
    const dialog: string[] = [];
    queue.take((raw) => page.push(raw));
    const close = queue.take((raw) => dialog.push(raw));
    queue.hear('first');
    await drawn();
    close();
    queue.hear('second');
    await drawn();
    expect({ page, dialog }).toEqual({ page: ['second'], dialog: ['first'] });
  });

  it('keeps a second scan until the one before it is kept (Verifies: ROUND-R27)', async () => {
    const queue = new ScanQueue();
    const begun: string[] = [];
    const kept: (() => void)[] = [];
    queue.take((raw) => {
      begun.push(raw);
      return new Promise<void>((done) => kept.push(done));
    });
    queue.hear('first');
    queue.hear('second');
    await drawn();
    expect(begun).toEqual(['first']);
    kept.shift()?.();
    await drawn();
    expect(begun).toEqual(['first', 'second']);
  });

  it('waits while anything is being kept, and goes to the screen that stands then', async () => {
    const queue = new ScanQueue();
    const list: string[] = [];
    const animal: string[] = [];
    const leave = queue.take((raw) => list.push(raw));
    const free = queue.hold();
    queue.hear('chip');
    await drawn();
    leave();
    free();
    free();
    await drawn();
    queue.take((raw) => animal.push(raw));
    await drawn();
    expect({ list, animal }).toEqual({ list: [], animal: ['chip'] });
  });

  it('does not keep a scan for a screen that comes much later', () => {
    const queue = new ScanQueue();
    const heard: string[] = [];
    queue.hear('left over');
    vi.advanceTimersByTime(3100);
    queue.take((raw) => heard.push(raw));
    expect(heard).toEqual([]);
  });

  it('goes on behind a scan that went wrong, and reports it', async () => {
    const queue = new ScanQueue();
    const heard: string[] = [];
    const reported = vi.fn();
    vi.stubGlobal('reportError', reported);
    try {
      queue.take((raw) => {
        if (raw === 'bad') throw new Error('cannot');
        heard.push(raw);
      });
      queue.hear('bad');
      queue.hear('good');
      await drawn();
      expect(heard).toEqual(['good']);
      expect(reported).toHaveBeenCalledOnce();
    } finally {
      vi.unstubAllGlobals();
    }
  });
});
