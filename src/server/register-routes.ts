import type { FastifyInstance, FastifyReply, FastifyRequest, RouteShorthandOptions } from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import { Problem, problems } from '../api/problems.js';
import { headers, type Route } from '../api/route.js';
import { type RouteName, routes } from '../api/routes.js';
import { routesTold } from '../api/routes-told.js';
import { type MayAsk, routeRights } from '../core/rights/rights.js';
import { dueCsv, dueFileName } from '../exports/due-csv.js';
import { namesGiven, signersOf } from '../log/private-side.js';
import { sendRefusal } from './answer-trouble.js';
import { type Asked, type Context, sayTo, toldToAll } from './context.js';
import { isRefusal, type Refusal, refuse } from './refusal.js';
import { animalList, flagList } from './routes/animals.js';
import { apartList, judgeApart } from './routes/apart.js';
import { chipsPage } from './routes/chips.js';
import { deviceCode, deviceList, enrol, nameDevice, revokeDevice } from './routes/devices.js';
import { dueList } from './routes/due.js';
import { events } from './routes/events.js';
import { backup, signedHead, verify } from './routes/keeping.js';
import { lotsLeft } from './routes/lots.js';
import { changePeople, erasePeople, peopleInFull, peopleList } from './routes/people.js';
import { keepPicture, picture, takePhotoIn } from './routes/photos.js';
import { animalRecords, append, recordsPage } from './routes/records.js';
import { setUpRoutes, shelterFor } from './routes/shelter.js';
import {
  confirm,
  firstAdministrator,
  newSecret,
  signedIn,
  signIn,
  signInByCode,
  signInDemo,
  signOut,
} from './routes/sign-in.js';
import { endSignIns, giveCode, giveDuty, setHome } from './routes/sign-in-care.js';
import { fromAnotherSite, isOwnName } from './security-headers.js';
import { setCookie } from './sign-in/cookies.js';
import { tellLog } from './sign-in/told-to-log.js';
import { mayNotAsk, whoAsks } from './sign-in/who-asks.js';

type Named<N extends RouteName> = (typeof routes)[N];
type QueryOf<N extends RouteName> =
  Named<N> extends { readonly query: infer Q extends z.ZodType } ? z.output<Q> : undefined;
type BodyOf<N extends RouteName> =
  Named<N> extends { readonly body: infer B extends z.ZodType }
    ? z.output<B>
    : Named<N> extends { readonly bytes: true }
      ? Uint8Array
      : undefined;
type ParamsOf<N extends RouteName> =
  Named<N> extends { readonly params: infer P extends z.ZodType } ? z.output<P> : undefined;
type AnswerOf<N extends RouteName> = Named<N>['answer']['is'] extends infer A extends z.ZodType ? z.output<A> : never;

/** A route that answers by itself, not with JSON, gives back the reply. */
type Handler<N extends RouteName> = (
  asked: Asked<QueryOf<N>, BodyOf<N>, ParamsOf<N>>,
  reply: FastifyReply,
) => Promise<AnswerOf<N> | Refusal | FastifyReply>;
type Handlers = { readonly [N in RouteName]: Handler<N> };

function handlersOf(context: Context, open: Set<() => void>): Handlers {
  return {
    ...setUpRoutes(context),
    people: (asked) => peopleList(context, asked),
    peopleInFull: () => peopleInFull(context),
    changePeople: (asked) => changePeople(context, asked),
    erasePeople: (asked) => erasePeople(context, asked),
    health: async ({ say }) => {
      const { seq } = await context.store.head();
      const last = context.looked();
      const copies = context.copies();
      const looked = last === null ? null : { at: last.at, whole: last.whole, records: last.records };
      return {
        ok: true,
        version: context.version,
        seq,
        looked,
        copied: copies === null ? null : { last: copies.last, failed: copies.failed !== null },
        told: (await toldToAll(context)).map((fault) => say(fault)),
      };
    },
    signIn: (asked) => signIn(context, asked),
    signInDemo: (asked) => signInDemo(context, asked),
    signedIn: (asked) => signedIn(context, asked),
    signInByCode: (asked) => signInByCode(context, asked),
    firstAdministrator: (asked) => firstAdministrator(context, asked),
    confirm: (asked) => confirm(context, asked),
    newSecret: (asked) => newSecret(context, asked),
    signOut: (asked) => signOut(context, asked),
    giveCode: (asked) => giveCode(context, asked),
    endSignIns: (asked) => endSignIns(context, asked),
    giveDuty: (asked) => giveDuty(context, asked),
    setHome: (asked) => setHome(context, asked),
    devices: (asked) => deviceList(context, asked),
    deviceCode: (asked) => deviceCode(context, asked),
    enrol: (asked) => enrol(context, asked),
    nameDevice: (asked) => nameDevice(context, asked),
    revokeDevice: (asked) => revokeDevice(context, asked),
    apart: () => apartList(context),
    judgeApart: (asked) => judgeApart(context, asked),
    shelter: (asked) => shelterFor(context, asked),
    append: (asked) => append(context, asked),
    records: (asked) => recordsPage(context, asked.query),
    animalRecords: (asked) => animalRecords(context, asked),
    lots: () => lotsLeft(context),
    chips: (asked) => chipsPage(context, asked.query),
    events: async ({ who }, reply) => {
      const session = who.session?.id ?? '';
      await events(context, reply, open, () => context.signIns.session(session) !== null);
      return reply;
    },
    due: async (asked, reply) => {
      const due = await dueList(context, asked);
      if (isRefusal(due)) return due;
      if (asked.query.format === 'json') return due;
      return reply
        .header('content-type', 'text/csv; charset=utf-8; header=present')
        .header('content-disposition', `attachment; filename="${dueFileName(due.on)}.csv"`)
        .serializer(String)
        .send(dueCsv(due.lines, due.demo, due.nothingBecause));
    },
    animals: (asked) => animalList(context, asked.query),
    flags: (asked) => flagList(context, asked),
    takePhoto: (asked) => takePhotoIn(context, asked.body),
    keepPicture: (asked) => keepPicture(context, asked.params.id, asked.body),
    picture: async (asked, reply) => {
      const found = await picture(context, asked.params.id);
      if (isRefusal(found)) return found;
      return reply
        .header('content-type', 'image/jpeg')
        .header('cache-control', 'private, max-age=31536000, immutable')
        .send(found);
    },
    verify: (asked) => verify(context, asked.say),
    signedHead: () => signedHead(context),
    backup: async (_asked, reply) => {
      const copy = await backup(context);
      if (isRefusal(copy)) return copy;
      return reply
        .header('content-type', 'application/x-tar')
        .header('content-disposition', `attachment; filename="${copy.name}"`)
        .send(copy.file);
    },
  };
}

/** The table of rights, held against the routes that there are. */
const mayAsk: Readonly<Record<RouteName, MayAsk>> = routeRights;

/** Turn the table of routes into routes of Fastify: who may ask, what is read, what is answered. */
export async function registerRoutes(app: FastifyInstance, context: Context): Promise<void> {
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  /** What has to be ended before the server can close. */
  const open = new Set<() => void>();
  app.addHook('preClose', async () => {
    for (const end of [...open]) end();
  });
  const handlers = handlersOf(context, open);

  for (const name of Object.keys(routes) as RouteName[]) {
    const route: Route = routes[name];
    // Each handler fits its own route; the compiler cannot follow a loop over all of them.
    const handler = handlers[name] as unknown as Handler<'health'>;
    const define = (scope: FastifyInstance): unknown =>
      scope.route({
        method: route.method,
        url: route.path.replace(/\{(\w+)\}/g, ':$1'),
        schema: schemaOf(name, route),
        handler: async (request, reply) => {
          const answered = await answer(context, name, handler, request, reply);
          if (answered === reply) return reply;
          if (isRefusal(answered)) {
            const { zone } = await context.shelter();
            const names = namesGiven(await context.people.people());
            return sendRefusal(reply, answered, zone, request.headers['accept-language'], names);
          }
          return reply.status(route.answer.status).header('cache-control', 'no-store').send(answered);
        },
      });
    if (route.bytes === true) await app.register(async (scope) => void define(takesBytes(scope)));
    else define(app);
  }
}

/** Bytes as they come, whatever they are called; an empty body is none of ours. */
function takesBytes(scope: FastifyInstance): FastifyInstance {
  scope.removeAllContentTypeParsers();
  scope.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
  return scope;
}

async function answer(
  context: Context,
  name: RouteName,
  handler: Handler<'health'>,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<unknown> {
  const route: Route = routes[name];
  const { host } = request.headers;
  if (!isOwnName(host, context.names)) return refuse('name-unknown', { name: host ?? '' });
  if (route.method !== 'GET' && fromAnotherSite(request.headers)) return refuse('from-another-site');
  const shelter = await context.shelter();
  // Records without a shelter are damaged, not a place where another one may be set up.
  if (shelter.id === null && route.path !== routes.health.path && (await context.store.head()).seq > 0) {
    return refuse('records-damaged');
  }
  const people = await context.people.people();
  const now = context.clock();
  const who = whoAsks(request, { signIns: context.signIns, shelter, signers: signersOf(people), now });
  const refused = mayNotAsk(shelter, mayAsk[name], who);
  const tell = (answered: unknown): unknown => {
    tellLog(request.log, name, { who, shelter, body: request.body, from: request.ip }, answered);
    return answered;
  };
  // What a revoked device still brings is taken in, beside the log; it is told so for each record.
  if (refused !== null && !(name === 'append' && who.device?.revokedAt != null)) return tell(refused);
  const asked: Asked<unknown, unknown, unknown> = {
    query: request.query,
    body: route.bytes === true && !(request.body instanceof Uint8Array) ? new Uint8Array() : request.body,
    params: request.params,
    who,
    shelter,
    say: sayTo(request.headers['accept-language'], shelter.zone, namesGiven(people)),
    deviceNow: headerText(request, headers.now),
    from: request.ip,
    setCookie: (cookie, value) => setCookie(request, reply, cookie, value),
  };
  return tell(await handler(asked as Asked<undefined, undefined, undefined>, reply));
}

function headerText(request: FastifyRequest, name: string): string | null {
  const value = request.headers[name];
  return typeof value === 'string' && value !== '' ? value : null;
}

function schemaOf(name: RouteName, route: Route): NonNullable<RouteShorthandOptions['schema']> {
  const { what, problems: told } = routesTold[name];
  const statuses = [...new Set(told.map((code) => problems[code].status))];
  return {
    operationId: name,
    summary: what,
    ...(route.query === undefined ? {} : { querystring: route.query }),
    ...(route.body === undefined ? {} : { body: route.body }),
    ...(route.params === undefined ? {} : { params: route.params }),
    response: {
      ...(typeof route.answer.is === 'string' ? {} : { [route.answer.status]: route.answer.is }),
      ...Object.fromEntries(
        statuses.map((status) => [status, { content: { 'application/problem+json': { schema: Problem } } }]),
      ),
    },
  } as NonNullable<RouteShorthandOptions['schema']>;
}
