import { createClient } from '../../src/api/client.js';
import { signInRoutes } from '../../src/api/routes-sign-in.js';
import { DeviceId, PersonId } from '../../src/core/ids.js';
import { hashSecret } from '../../src/server/sign-in/secrets.js';
import { type server, shelter } from './app.js';
import type { shelterLog } from './shelter-log.js';

export const minute_ms = 60_000;
export const secret = 'seven quiet kittens';
export const id = (text: string): PersonId => PersonId.parse(text);

export type Around = Awaited<ReturnType<typeof server>>;

/** A browser: keeps the cookies that it is given, sends them back, and knows its own device. */
export function browser({ app, time }: Around, device = 'own-device', version = '1.0') {
  const jar = new Map<string, string>();
  const set: string[] = [];
  const client = createClient(
    async (url, { method, headers, body }) => {
      const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join('; ');
      const payload = body === undefined ? {} : { payload: typeof body === 'string' ? body : Buffer.from(body) };
      const answer = await app.inject({
        method: method as 'GET',
        url,
        headers: { ...headers, ...(cookie === '' ? {} : { cookie }) },
        ...payload,
      });
      for (const line of [answer.headers['set-cookie'] ?? []].flat()) {
        set.push(line);
        const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(line) ?? [];
        if (value === '') jar.delete(name);
        else jar.set(name, value);
      }
      return { status: answer.statusCode, text: async () => answer.body };
    },
    '',
    { now: () => time.now, version },
  );
  return { client: { ...client, ...client.asks(signInRoutes) }, jar, set, device: DeviceId.parse(device) };
}

export const codeOf = (answer: { ok: boolean; code?: string }): string => (answer.ok ? 'ok' : (answer.code ?? ''));
export const pass = (around: Around, ms: number): void => {
  around.time.now = new Date(Date.parse(around.time.now) + ms).toISOString();
};

/** A cheap one, because a test signs in often; what is kept says itself what it costs. */
export const hash = hashSecret(secret, { m: 64, t: 1, p: 1 });
export async function withPassword(person: string): Promise<Around & { log: ReturnType<typeof shelterLog> }> {
  const around = await shelter();
  around.signIns.setSecret(id(person), 'password', await hash);
  return around;
}
