import type { FastifyInstance } from 'fastify';

/**
 * Only our own files may run, and no script inside a page. Styles inside a page are allowed: the interface library sets
 * them. Pictures of animals come out of the page's own memory (blob:); recordings and workers are our own.
 */
const policy = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "media-src 'self' blob:",
  "worker-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

const always: Readonly<Record<string, string>> = {
  'content-security-policy': policy,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy':
    'camera=(self), microphone=(), geolocation=(), payment=(), usb=(self), bluetooth=(self), serial=(self)',
};

/** A year, of this very name alone (RFC 6797, 6.1.1; OWASP ASVS 5.0.0, V3.4.1). */
const httpsOnly = 'max-age=31536000';

export function secure(app: FastifyInstance): void {
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(always);
    if (request.protocol === 'https' && keepsToHttps(request.hostname)) {
      reply.header('strict-transport-security', httpsOnly);
    }
  });
}

/**
 * Only a name of the server's own: a browser takes it for no address (RFC 6797, 8.1.1), by which the page for trusting the
 * authority is reached without https; localhost is other programs' name, too.
 */
function keepsToHttps(host: string): boolean {
  const name = host.toLowerCase().replace(/:\d+$/, '');
  return !address.test(name) && name !== 'localhost';
}

/**
 * True for a request that a page of another site made this browser send. Browsers say so themselves (Fetch Metadata), and
 * name the origin of what is no mere reading; programs send neither. The cookies go to no other site either.
 */
export function fromAnotherSite(headers: Readonly<Record<string, unknown>>): boolean {
  const site = headers['sec-fetch-site'];
  if (site === 'cross-site' || site === 'same-site') return true;
  // Another port of the same computer is another site too.
  const { origin, host } = headers;
  return typeof origin === 'string' && origin.replace(/^https?:\/\//, '') !== host;
}

/** Endings of names that only a local network gives out: RFC 6762, RFC 8375, ICANN's reservation of internal; lan by custom. */
const localName = /^[a-z0-9-]+(\.(local|lan|internal|home\.arpa))?$/;
const address = /^(\d{1,3}(\.\d{1,3}){3}|\[[0-9a-f:.]+\])$/;

/**
 * Whether a request came to a name that this server can have: an address, a name of the local network, or one it was
 * started with. A page from outside that has its own name point at this computer (DNS rebinding) comes with that name.
 */
export function isOwnName(host: string | undefined, names: readonly string[]): boolean {
  const name = (host ?? '').toLowerCase().replace(/:\d+$/, '');
  return address.test(name) || localName.test(name) || names.includes(name);
}
