import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { noon, server } from '../../test/support/app.js';
import { shelterLog } from '../../test/support/shelter-log.js';
import { memoryStore } from '../store/memory/store.js';

describe('what goes over the line', () => {
  it('is a file as it was packed ahead, in the way that the asker can unpack', async () => {
    const webRoot = mkdtempSync(join(tmpdir(), 'roundhand-web-'));
    mkdirSync(join(webRoot, 'assets'));
    const page = '<!doctype html><title>Roundhand</title>';
    for (const [file, text] of Object.entries({ 'index.html': page, 'assets/a.js': 'let a;' })) {
      writeFileSync(join(webRoot, file), text);
      writeFileSync(join(webRoot, `${file}.br`), brotliCompressSync(`${text} `));
      writeFileSync(join(webRoot, `${file}.gz`), gzipSync(`${text}  `));
    }
    const { app } = await server({ webRoot });
    const get = (url: string, encoding: string) =>
      app.inject({ url, headers: { accept: 'text/html', 'accept-encoding': encoding } });
    for (const url of ['/assets/a.js', '/', '/round/abc']) {
      const [br, gz, plain] = [await get(url, 'gzip, br'), await get(url, 'gzip'), await get(url, 'identity')];
      expect([br.headers['content-encoding'], gz.headers['content-encoding']], url).toEqual(['br', 'gzip']);
      expect(brotliDecompressSync(br.rawPayload).toString()).toBe(`${plain.body} `);
      expect(gunzipSync(gz.rawPayload).toString()).toBe(`${plain.body}  `);
      expect(plain.headers['content-encoding']).toBeUndefined();
      expect(br.headers['content-type']).toBe(plain.headers['content-type']);
      expect(br.headers['cache-control']).toBe(
        url.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
      );
    }
    rmSync(webRoot, { recursive: true });
  });

  it('is a long answer packed as it is sent, and a short one as it is', async () => {
    const store = memoryStore();
    await store.append(shelterLog(20).records, noon);
    const { app, asking } = await server({ store });
    const get = (url: string, encoding: string) =>
      app.inject({ url, headers: { ...asking('ines'), 'accept-encoding': encoding } });
    const url = '/api/records?after=0';
    const [br, gz, plain] = [await get(url, 'br, gzip'), await get(url, 'gzip'), await get(url, 'identity')];
    expect(plain.statusCode).toBe(200);
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(brotliDecompressSync(br.rawPayload).toString()).toBe(plain.body);
    expect(gunzipSync(gz.rawPayload).toString()).toBe(plain.body);
    expect((await get('/api/nothing', 'br, gzip')).headers['content-encoding']).toBeUndefined();
  });

  it('is never packed in the stream of events', async () => {
    const store = memoryStore();
    await store.append(shelterLog(1).records, noon);
    const { app, asking } = await server({ store });
    const base = await app.listen({ port: 0, host: '127.0.0.1' });
    const answer = await fetch(`${base}/api/events`, { headers: { ...asking('ines'), 'accept-encoding': 'br, gzip' } });
    expect(answer.headers.get('content-encoding')).toBeNull();
    expect(answer.headers.get('content-type')).toBe('text/event-stream');
    await app.close();
  });
});
