import { describe, expect, it } from 'vitest';
import { createClient, type Fetch } from './client.js';
import { headers } from './route.js';
import { routes } from './routes.js';
import { carriedRoutes } from './routes-carried.js';
import { signInRoutes } from './routes-sign-in.js';

const now = '2026-03-02T12:00:00.000Z';
const clientWith = (fetch: Fetch, version?: string) =>
  createClient(fetch, 'https://desk.test', { now: () => now, ...(version === undefined ? {} : { version }) });

describe('the client', () => {
  it('says which program asks and what time the device has, and sends what the route takes', async () => {
    const asked: unknown[] = [];
    const client = clientWith(async (url, init) => {
      asked.push([url, init]);
      return { status: 200, text: async () => '{}' };
    }, '1.2');
    await client.due({ status: ['due', 'overdue'], schedule: 'core-vaccine' as never });
    await client.append({ records: [{ id: 'a' }] });
    const said = { accept: 'application/json', [headers.now]: now, [headers.version]: '1.2' };
    expect(asked).toEqual([
      ['https://desk.test/api/due?status=due%2Coverdue&schedule=core-vaccine', { method: 'GET', headers: said }],
      [
        'https://desk.test/api/records',
        { method: 'POST', headers: { ...said, 'content-type': 'application/json' }, body: '{"records":[{"id":"a"}]}' },
      ],
    ]);
  });

  it('says nothing of a version that it does not know, and never who asks (Verifies: LOG-R202)', async () => {
    const well = { ok: true, version: '1', seq: 3, looked: null, copied: null, told: [] };
    let sent: Record<string, string> = {};
    const client = clientWith(async (_url, init) => {
      sent = init.headers;
      return { status: 200, text: async () => JSON.stringify(well) };
    });
    expect(await client.health()).toEqual({ ok: true, value: well });
    expect(Object.keys(sent)).toEqual(['accept', headers.now]);
  });

  it.each([
    ['a line that is down', () => Promise.reject(new TypeError('network')), 'unreachable'],
    ['a page of a proxy', async () => ({ status: 502, text: async () => '<html>' }), 'not-understood'],
    ['another program', async () => ({ status: 200, text: async () => '{"hello":1}' }), 'not-understood'],
    [
      'a line that breaks off',
      async () => ({ status: 200, text: () => Promise.reject(new Error('cut')) }),
      'unreachable',
    ],
  ] as const)('never rejects, whatever it meets: %s', async (_what, fetch, code) => {
    expect(await clientWith(fetch).health()).toEqual({ ok: false, code, problem: null });
  });

  it('hands on the problem of the server', async () => {
    const problem = {
      type: 'urn:roundhand:problem:store-busy',
      title: 'Service Unavailable',
      status: 503,
      detail: 'Try again.',
      code: 'store-busy',
      said: { say: 'server.problem.store-busy' },
    };
    const client = clientWith(async () => ({ status: 503, text: async () => JSON.stringify(problem) }));
    expect(await client.append({ records: [] })).toEqual({ ok: false, code: 'store-busy', problem });
  });

  it('gives the address of what a browser fetches by itself', () => {
    const client = clientWith(async () => ({ status: 200, text: async () => '' }));
    expect(client.url('events')).toBe('https://desk.test/api/events');
    expect(client.url('due', { format: 'csv' })).toBe('https://desk.test/api/due?format=csv');
    expect(Object.keys(client).sort()).toEqual([...Object.keys(carriedRoutes), 'asks', 'url'].sort());
  });

  it('asks what comes with the screens for signing in by a table of their own, and leaves no route out', async () => {
    const asked: string[] = [];
    const client = clientWith(async (url, { method }) => {
      asked.push(`${method} ${url}`);
      return { status: 200, text: async () => JSON.stringify({ signedOut: true }) };
    });
    const signing = client.asks(signInRoutes);
    expect(await signing.signOut()).toEqual({ ok: true, value: { signedOut: true } });
    expect(asked).toEqual(['POST https://desk.test/api/sign-out']);
    expect([...Object.keys(signing), ...Object.keys(carriedRoutes)].sort()).toEqual(Object.keys(routes).sort());
  });
});
