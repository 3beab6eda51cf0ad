import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { problemOfTrouble, problems } from '../api/problems.js';
import { routes } from '../api/routes.js';
import { limits } from '../api/wire.js';
import { type Names, noNames } from '../core/people.js';
import { said } from '../core/said.js';
import { StoreTrouble } from '../log/store.js';
import { type Context, sayTo } from './context.js';
import { photoTooLarge } from './photo/take-photo.js';
import { problemOf, type Refusal, refuse, refuseBecause } from './refusal.js';
import { isPageAddress } from './web-files.js';

export function sendRefusal(
  reply: FastifyReply,
  refusal: Refusal,
  zone: string,
  language: string | undefined,
  names: Names = noNames,
): FastifyReply {
  const problem = problemOf(refusal, sayTo(language, zone, names));
  return reply
    .status(problem.status)
    .header('content-type', 'application/problem+json; charset=utf-8')
    .send(JSON.stringify(problem));
}

/** Every way in which a request can fail ends in one problem with one sentence; nothing of the inside leaks out. */
export function answerTrouble(app: FastifyInstance, context: Context): void {
  const answer = (request: FastifyRequest, reply: FastifyReply, refusal: Refusal): FastifyReply =>
    sendRefusal(reply, refusal, context.zone, request.headers['accept-language']);

  app.setErrorHandler((error, request, reply) => {
    const refusal =
      request.url.startsWith(routes.takePhoto.path) && isTooLarge(error) ? photoTooLarge() : refusalOf(error);
    if (problems[refusal.refused].status >= 500) request.log.error(error);
    return answer(request, reply, refusal);
  });
  app.setNotFoundHandler((request, reply) => {
    // Addresses inside the web app are the app's own business; it is served when it is there.
    const pageAddress = isPageAddress(request.method, request.url, request.headers.accept);
    if (pageAddress && app.hasReplyDecorator('sendFile')) return reply.sendFile('index.html');
    return answer(request, reply, refuse('no-such-page'));
  });
}

const isTooLarge = (error: unknown): boolean =>
  typeof error === 'object' && error !== null && 'code' in error && error.code === 'FST_ERR_CTP_BODY_TOO_LARGE';

function refusalOf(error: unknown): Refusal {
  // The store's own sentence names files of the server: it goes to the log, the asker hears what it means for them.
  if (error instanceof StoreTrouble) return refuse(problemOfTrouble[error.code]);
  if (hasZodFastifySchemaValidationErrors(error)) {
    const [first] = error.validation;
    const where = first?.instancePath.replaceAll('/', ' ').trim() ?? '';
    const detail = [where, first?.message ?? ''].filter((part) => part !== '').join(': ');
    return refuseBecause('request-malformed', said('server.detail', { detail }));
  }
  const code = typeof error === 'object' && error !== null && 'code' in error ? error.code : '';
  switch (code) {
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return refuse('request-too-large', { most: limits.bodyBytes / 1024 / 1024 });
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return refuse('not-json');
    case 'FST_ERR_CTP_EMPTY_JSON_BODY':
    case 'FST_ERR_CTP_INVALID_JSON_BODY':
      return refuse('request-malformed');
    default:
      // What the framework itself finds wrong with a request (a broken address, a body cut short) is the sender's.
      return refuse(isClientError(error) ? 'request-malformed' : 'unexpected');
  }
}

const isClientError = (error: unknown): boolean =>
  typeof error === 'object' &&
  error !== null &&
  'statusCode' in error &&
  typeof error.statusCode === 'number' &&
  error.statusCode >= 400 &&
  error.statusCode < 500;
