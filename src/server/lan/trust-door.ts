import { X509Certificate } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { sayTo } from '../context.js';
import type { Authority } from './certificate.js';
import { certificatePath, type TrustPage, trustPage, trustPolicy } from './trust-page.js';

export interface TrustDoor {
  readonly url: string;
  readonly close: () => Promise<void>;
}

/**
 * The one thing that is served by plain http: the authority's certificate and the steps for trusting it. No record, no name,
 * no key and nothing of the app is reached from here. Any free port where the one asked for is taken. `at`: the name or
 * address in the page's own address; `urls`: of the app.
 */
export async function openTrustDoor(
  authority: () => Authority | null,
  urls: TrustPage['urls'],
  { at, host, port }: { readonly at: string; readonly host: string; readonly port: number },
): Promise<TrustDoor> {
  let url = '';
  const server = createServer((request, reply) => {
    const now = authority();
    if (now === null) reply.writeHead(404).end();
    else answer(request, reply, now, { urls, here: url, fingerprint: now.fingerprint });
  });
  if (port > 65_535 || !(await listens(server, port, host))) await listens(server, 0, host);
  url = `http://${at}:${(server.address() as AddressInfo).port}/`;
  return {
    url,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

const listens = (server: Server, port: number, host: string): Promise<boolean> =>
  new Promise((done) => {
    const refused = (): void => done(false);
    server.once('error', refused);
    server.listen(port, host, () => {
      server.off('error', refused);
      done(true);
    });
  });

function answer(request: IncomingMessage, reply: ServerResponse, authority: Authority, page: TrustPage): void {
  const always = {
    'content-security-policy': trustPolicy,
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cache-control': 'no-store',
  };
  const path = (request.url ?? '/').split('?')[0];
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    reply.writeHead(405, { ...always, allow: 'GET, HEAD' }).end();
  } else if (path === '/') {
    const say = sayTo(request.headers['accept-language'], 'UTC', new Map());
    reply.writeHead(200, { ...always, 'content-type': 'text/html; charset=utf-8' }).end(trustPage(page, say));
  } else if (path === certificatePath) {
    // By this type phones know an authority; custom, no standard names one for it.
    const type = 'application/x-x509-ca-cert';
    reply.writeHead(200, { ...always, 'content-type': type }).end(new X509Certificate(authority.certificate).raw);
  } else reply.writeHead(404, always).end();
}
