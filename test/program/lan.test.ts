import { spawn } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { request } from 'node:https';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commandLine, expectSentence } from './support/command-line.js';

const { folder, there, run } = commandLine();

/** `start --lan` until it has said everything, then until it has ended. */
async function startOnLan(
  data: string,
  use: (out: string) => Promise<void>,
): Promise<{ code: number | null; err: string }> {
  const child = spawn(process.execPath, [
    there.main,
    'start',
    '--data',
    data,
    '--port',
    '0',
    '--lan',
    '--name',
    'cats.test',
  ]);
  let [out, err] = ['', ''];
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  const ended = new Promise<number | null>((done) => child.once('close', done));
  await new Promise<void>((said) => {
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
      if (/SHA-256\): \S+\n/.test(out)) said();
    });
    child.once('close', () => said());
  });
  try {
    await use(out);
  } finally {
    child.kill('SIGTERM');
  }
  return { code: await ended, err };
}

const health = async (port: number, ca: string): Promise<string> => (await asked(port, ca, 'cats.test')).text;

/** What the server answers by a name or address, and what it says of https then. */
const asked = (port: number, ca: string, by: string): Promise<{ text: string; strictly: string | undefined }> =>
  new Promise((done) => {
    request(
      {
        host: '127.0.0.1',
        servername: 'cats.test',
        port,
        path: '/api/health',
        ca,
        agent: false,
        headers: { host: `${by}:${port}` },
      },
      (reply) => {
        let text = '';
        reply.setEncoding('utf8').on('data', (more: string) => {
          text += more;
        });
        reply.on('end', () => done({ text, strictly: reply.headers['strict-transport-security'] }));
      },
    )
      .on('error', (error) => done({ text: error.message, strictly: undefined }))
      .end();
  });

describe('start --lan', () => {
  test('serves https by its name, and shows a phone the way there (Verifies: LOG-R215)', async () => {
    const data = join(folder, 'lan');
    let [first, second] = ['', ''];
    const ended = await startOnLan(data, async (out) => {
      const port = Number(/Roundhand is at https:\/\/cats\.test:(\d+)\n/.exec(out)?.[1]);
      expect(out).toMatch(/\n {4}█▀▀▀▀▀█ /);
      const trust = /or type (http:\/\/\S+)\n/.exec(out)?.[1] ?? '';
      first = /SHA-256\): (\S+)\n/.exec(out)?.[1] ?? '';
      const page = await (await fetch(trust)).text();
      expect(page).toContain(first);
      const given = new Uint8Array(await (await fetch(new URL('/roundhand-authority.crt', trust))).arrayBuffer());
      const authority = `-----BEGIN CERTIFICATE-----\n${Buffer.from(given).toString('base64')}\n-----END CERTIFICATE-----\n`;
      expect(JSON.parse(await health(port, authority))).toMatchObject({ ok: true });
      // By its name alone; the page for trusting is reached by an address.
      const said = async (by: string) => (await asked(port, authority, by)).strictly;
      expect(await said('cats.test')).toBe('max-age=31536000');
      expect([await said('127.0.0.1'), await said('[::1]'), await said('localhost')]).toEqual([
        undefined,
        undefined,
        undefined,
      ]);
      expect(await health(port, readFileSync(join(data, 'keys', 'server.crt'), 'utf8'))).toMatch(/unable to/);
    });
    expect(ended).toEqual({ code: 0, err: '' });
    for (const name of ['authority.key', 'server.key'])
      expect(statSync(join(data, 'keys', name)).mode & 0o777).toBe(0o600);
    await startOnLan(data, async (out) => {
      second = /SHA-256\): (\S+)\n/.exec(out)?.[1] ?? '';
    });
    expect(second).toBe(first);
  });

  test('does not start while others may read a key (Verifies: LAN-R2)', async () => {
    const data = join(folder, 'open-keys');
    mkdirSync(join(data, 'keys'), { recursive: true, mode: 0o700 });
    chmodSync(join(data, 'keys'), 0o755);
    const ended = await run(['start', '--data', data, '--port', '0', '--lan']);
    expect(ended.code).toBe(1);
    expect(ended.err).toMatch(/^The folder of keys .* is open to others \(rights 755\)[^\n]*\n$/);
  });

  test.each([
    ['a name alone', ['--name', 'cats.test']],
    ['a certificate without its key', ['--lan', '--cert', 'own.crt']],
    ['a key without --lan', ['--cert', 'own.crt', '--key', 'own.key']],
  ])('is called wrongly with %s', async (_what, args) => {
    expectSentence(await run(['start', ...args]), 2, 'takes both --cert and --key, and goes with --lan');
  });
});
