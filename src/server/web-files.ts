import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';

/**
 * Serve the web app. Files under assets/ have their content in their name and may be kept for ever; everything else is
 * asked for again each time, so that a new version is seen.
 */
export async function serveWeb(app: FastifyInstance, webRoot: string): Promise<void> {
  if (!existsSync(join(webRoot, 'index.html'))) return;
  await app.register(fastifyStatic, {
    root: webRoot,
    cacheControl: false,
    // Packed when the web app is built (scripts/pack-ahead.mjs).
    preCompressed: true,
    setHeaders: (reply, path) => {
      const kept = path.includes('/assets/') || path.includes('\\assets\\');
      reply.header('cache-control', kept ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}

/** An address inside the app, not of a file: the app itself answers it. */
export const isPageAddress = (method: string, url: string, accept: string | undefined): boolean => {
  const path = url.split('?')[0] ?? '';
  const lastPart = path.slice(path.lastIndexOf('/') + 1);
  return (
    (method === 'GET' || method === 'HEAD') &&
    path !== '/api' &&
    !path.startsWith('/api/') &&
    !lastPart.includes('.') &&
    (accept === undefined || accept.includes('text/html') || accept.includes('*/*'))
  );
};
