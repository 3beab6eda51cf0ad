import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { code, noon, server } from '../../test/support/app.js';
import { shelterLog } from '../../test/support/shelter-log.js';
import { said } from '../core/said.js';
import { type LogStore, StoreTrouble } from '../log/store.js';
import { memoryStore } from '../store/memory/store.js';

describe('when something is wrong with the records', () => {
  const failing = (trouble: StoreTrouble): LogStore => {
    const store = memoryStore();
    return {
      ...store,
      append: async (batch, now) => (batch.length === 0 ? store.append(batch, now) : Promise.reject(trouble)),
    };
  };

  it.each([
    ['full', 'store-full', 507],
    ['busy', 'store-busy', 503],
    ['damaged', 'store-trouble', 500],
  ] as const)('says so of a store that is %s, and names no file', async (trouble, wanted, status) => {
    const why = said(`server.store.${trouble}`, { file: '/secret/place', detail: '/secret/place' });
    const { as, app, setUp } = await server({ store: failing(new StoreTrouble(trouble, why)) });
    const answer = await as(null).setUp(setUp);
    expect(code(answer)).toBe(wanted);
    expect(answer).toMatchObject({ problem: { status } });
    expect(JSON.stringify(answer)).not.toContain('secret');
    expect((await app.inject('/api/health')).statusCode).toBe(200);
  });

  it('hides what it did not expect', async () => {
    const store = { ...memoryStore(), read: () => Promise.reject(new Error('a secret of the inside')) };
    const inner = memoryStore();
    await inner.append(shelterLog(1).records, noon);
    const { app, asking } = await server({ store: { ...inner, rows: store.read } });
    const answer = await app.inject({ url: '/api/animals', headers: asking('ines') });
    expect(answer.json()).toMatchObject({ code: 'unexpected', status: 500 });
    expect(answer.body).not.toContain('secret');
  });
});

describe('the web app', () => {
  it('is served with its pages, and lets no other script run', async () => {
    const webRoot = mkdtempSync(join(tmpdir(), 'roundhand-web-'));
    writeFileSync(join(webRoot, 'index.html'), '<!doctype html><title>Roundhand</title>');
    writeFileSync(join(webRoot, 'sw.js'), '// worker');
    const { app } = await server({ webRoot });
    const html = { accept: 'text/html' };
    for (const url of ['/', '/desk', '/round/abc/animal?x=1']) {
      const page = await app.inject({ url, headers: html });
      expect([page.statusCode, page.headers['cache-control']], url).toEqual([200, 'no-cache']);
      expect(page.body).toContain('Roundhand');
      const policy = String(page.headers['content-security-policy']);
      expect(policy).toContain("script-src 'self';");
      expect(policy.split(';').find((part) => part.includes('script-src'))).not.toContain('unsafe');
      expect(page.headers['x-content-type-options']).toBe('nosniff');
      // Without https it says nothing of it (RFC 6797, 7.2).
      expect(page.headers).not.toHaveProperty('strict-transport-security');
    }
    expect((await app.inject('/sw.js')).headers['content-type']).toContain('javascript');
    for (const url of ['/missing.js', '/api/nothing', '/../package.json', '/%2e%2e/package.json']) {
      const answer = await app.inject({ url, headers: html });
      expect([answer.statusCode, answer.headers['content-type']], url).toEqual([
        404,
        'application/problem+json; charset=utf-8',
      ]);
    }
    rmSync(webRoot, { recursive: true });
  });
});
