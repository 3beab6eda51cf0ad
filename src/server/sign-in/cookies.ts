import type { FastifyReply, FastifyRequest } from 'fastify';
import type { DeviceId } from '../../core/ids.js';
import { signInLimits } from './limits.js';

const year_s = 365 * 24 * 3600;
const names = { session: 'roundhand-session', device: 'roundhand-device' } as const;
type Cookie = keyof typeof names;

const isHttps = (request: FastifyRequest): boolean => request.protocol === 'https';

/** Over https it is bound to this very host (draft-ietf-httpbis-rfc6265bis, 4.1.3.2: the prefix __Host-). */
const nameOf = (cookie: Cookie, https: boolean): string => `${https ? '__Host-' : ''}${names[cookie]}`;

/** What a request brings of a cookie; null for none. */
export function readCookie(request: FastifyRequest, cookie: Cookie): string | null {
  const wanted = `${nameOf(cookie, isHttps(request))}=`;
  const found = (request.headers.cookie ?? '').split(/;\s*/).filter((part) => part.startsWith(wanted));
  // Two of one name is somebody else's work.
  return found.length === 1 ? (found[0]?.slice(wanted.length) ?? null) : null;
}

/** No script sees it, no other site sends it; null takes it away. */
export function setCookie(request: FastifyRequest, reply: FastifyReply, cookie: Cookie, value: string | null): void {
  const https = isHttps(request);
  const age = value === null ? 0 : cookie === 'device' ? year_s : signInLimits.absolute_ms / 1000;
  const parts = [`${nameOf(cookie, https)}=${value ?? ''}`, 'Path=/', `Max-Age=${age}`, 'HttpOnly', 'SameSite=Strict'];
  // Fastify sends each that is set.
  reply.header('set-cookie', [...parts, ...(https ? ['Secure'] : [])].join('; '));
}

/** A device says which it is and proves it in one. */
export const deviceCookie = (id: DeviceId, secret: string): string => `${id}.${secret}`;
export function readDeviceCookie(value: string | null): { readonly id: DeviceId; readonly secret: string } | null {
  const dot = (value ?? '').lastIndexOf('.');
  if (value === null || dot <= 0) return null;
  return { id: value.slice(0, dot) as DeviceId, secret: value.slice(dot + 1) };
}
