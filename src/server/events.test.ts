import { describe, expect, it } from 'vitest';
import { at } from '../../test/support/log.js';
import { shelterLog, weighed } from '../../test/support/shelter-log.js';
import { cookieOf } from '../../test/support/signed-in.js';
import type { HeadEvent } from '../api/wire.js';
import { memoryStore } from '../store/memory/store.js';
import { memorySignIns } from '../store/private/sign-ins.js';
import { createApp } from './app.js';

const noon = at('2026-03-02', '12:00');

describe('events', () => {
  it('tell how far the log is, at once and whenever it has grown, and end when the server closes', async () => {
    const store = memoryStore();
    const log = shelterLog(1);
    await store.append(log.records, noon);
    const signIns = memorySignIns();
    const app = await createApp({ store, signIns, clock: () => noon, version: 'x' });
    const cookie = cookieOf(signIns, 'ines', noon);
    const base = await app.listen({ port: 0, host: '127.0.0.1' });
    const answer = await fetch(`${base}/api/events`, { headers: { cookie } });
    expect(answer.headers.get('content-type')).toBe('text/event-stream');
    if (answer.body === null) throw new Error('no body');
    const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
    let text = '';
    const next = async (): Promise<number> => {
      while (!text.includes('\n\n')) {
        const { value, done } = await reader.read();
        if (done) throw new Error('the line has ended');
        text += value;
      }
      const [event = '', ...rest] = text.split('\n\n');
      text = rest.join('\n\n');
      expect(event).toContain('event: head');
      return (JSON.parse(/data: (.*)/.exec(event)?.[1] ?? '') as HeadEvent).seq;
    };
    expect(await next()).toBe(log.records.length);

    const [one] = log.add([weighed(1, 620, noon)], 'ines');
    const sent = async () =>
      await fetch(`${base}/api/records`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', cookie },
        body: JSON.stringify({ records: [one] }),
      });
    expect((await sent()).status).toBe(200);
    expect(await next()).toBe(log.records.length);
    // Sent again it changes nothing, and nobody is told.
    expect((await sent()).status).toBe(200);
    const [two] = log.add([weighed(1, 640, noon)], 'ines');
    await fetch(`${base}/api/records`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', cookie },
      body: JSON.stringify({ records: [two] }),
    });
    expect(await next()).toBe(log.records.length);

    const ended = (async () => {
      for (;;) if ((await reader.read()).done) return true;
    })().catch(() => true);
    await app.close();
    expect(await ended).toBe(true);
  });
});
