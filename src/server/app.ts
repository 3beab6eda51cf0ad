import fastify, { type FastifyInstance } from 'fastify';
import { v7 } from 'uuid';
import { limits } from '../api/wire.js';
import type { Said } from '../core/said.js';
import type { Blobs } from '../log/blobs.js';
import type { PrivateSide } from '../log/private-side.js';
import type { Draft } from '../log/record.js';
import type { LogStore } from '../log/store.js';
import { memoryBlobs } from '../store/blobs/memory.js';
import { checkInForce } from '../store/in-force.js';
import { memoryPrivateSide } from '../store/private/memory.js';
import { memorySignIns, type SignIns } from '../store/private/sign-ins.js';
import type { Heads } from '../store/tree-heads.js';
import { answerTrouble } from './answer-trouble.js';
import { type Context, grown, type MakeDemo, toldToAll } from './context.js';
import { type CopiesAsked, keepCopies } from './copies/keep-copies.js';
import { makeCopy } from './copies/make-copy.js';
import { bringToToday, watchTheDay } from './new-day.js';
import { packAnswers } from './pack-answers.js';
import { registerRoutes } from './register-routes.js';
import { type Looked, type RollingTimes, rollingCheck } from './rolling-check.js';
import { secure } from './security-headers.js';
import { signDaily } from './sign-daily.js';
import { offerFirst } from './sign-in/first.js';
import { serveWeb } from './web-files.js';

export interface AppOptions {
  readonly store: LogStore;
  /** Keeper of the pictures; in memory when left out. */
  readonly blobs?: Blobs;
  /** The private side; one in memory, without anybody, when left out. */
  readonly people?: PrivateSide;
  /** What people sign in with; in memory, without anybody, when left out. */
  readonly signIns?: SignIns;
  /** Prints the code of the first administrator, on the console of the server. */
  readonly printCode?: (code: string) => void;
  /** UTC ISO text. */
  readonly clock: () => string;
  readonly version: string;
  /** Copies the store to a file; left out when the store cannot. */
  readonly backUp?: (to: string) => Promise<void>;
  /** Copies in a second place, when this kind of store can be copied; none are made when left out. */
  readonly copies?: CopiesAsked;
  /** Signs heads of the log; left out when there is nowhere to keep them. */
  readonly heads?: Heads;
  readonly newId?: () => string;
  /** Public names of the server, when it has any. */
  readonly names?: readonly string[];
  /** Certificate and key (PEM) to serve https with; plain http when left out. */
  readonly https?: { readonly certificate: string; readonly key: string };
  /** Zone of this computer. */
  readonly zone?: string;
  /** Left out: the invented shelter is not offered. */
  readonly demo?: MakeDemo;
  /** Drafts that a new shelter starts with. */
  readonly starter?: (at: string) => readonly Draft[];
  /** Folder of the built web app. */
  readonly webRoot?: string;
  /** When the records are looked through by themselves; never when left out. */
  readonly rolling?: RollingTimes;
  /** Hears, on the console, what is wrong with the records. */
  readonly complain?: (what: Said) => void;
  /** Level of pino's log; quiet when left out. */
  readonly logLevel?: string;
  /** Where the log goes; standard error when left out. */
  readonly logTo?: { readonly write: (line: string) => void };
  /** Plugins that have to see every route, such as the one that describes them. */
  readonly before?: (app: FastifyInstance) => Promise<void>;
}

/** Put the server together around a store. Does not listen yet; closing it leaves the store open. */
export async function createApp(options: AppOptions): Promise<FastifyInstance> {
  const { store } = options;
  const inForce = await checkInForce(store);
  let looked: Looked | null = null;
  let copies: ReturnType<typeof keepCopies> | null = null;
  const context: Context = {
    store,
    blobs: options.blobs ?? memoryBlobs(),
    people: options.people ?? memoryPrivateSide(),
    signIns: options.signIns ?? memorySignIns(),
    printCode: options.printCode ?? (() => undefined),
    backUp: options.backUp ?? null,
    heads: options.heads ?? null,
    copies: () => copies?.state() ?? null,
    clock: options.clock,
    newId: options.newId ?? v7,
    version: options.version,
    names: (options.names ?? []).map((name) => name.toLowerCase()),
    zone: options.zone ?? 'UTC',
    demo: options.demo ?? null,
    starter: options.starter ?? (() => []),
    shelter: () => store.shelter(),
    unreadable: () => store.unreadable(),
    grown: grown(),
    inForce,
    looked: () => looked,
    complain: complainer(options.complain ?? (() => undefined)),
  };
  await bringToToday(context);
  await offerFirst(context);

  const { https } = options;
  const app = fastify({
    ...(https === undefined
      ? {}
      : { https: { cert: https.certificate, key: https.key, minVersion: 'TLSv1.2' as const } }),
    logger:
      options.logLevel === undefined ? false : logOf(options.logLevel, options.clock, options.logTo ?? process.stderr),
    bodyLimit: limits.bodyBytes,
    // Such a name turns away its own record (log/carried.ts) and not the whole batch; everywhere else the schema drops it.
    onProtoPoisoning: 'ignore',
    onConstructorPoisoning: 'ignore',
    // A phone that went to sleep must not hold up closing.
    forceCloseConnections: true,
  });
  // JSON is the only thing taken in: a form on another site can send text, but not JSON without asking first.
  app.removeContentTypeParser('text/plain');
  secure(app);
  await packAnswers(app);
  answerTrouble(app, context);
  await options.before?.(app);
  await registerRoutes(app, context);
  if (options.webRoot !== undefined) await serveWeb(app, options.webRoot);

  const stopWatching = watchTheDay(context, (error) => app.log.error(error));
  context.complain(await toldToAll(context));
  const stopLooking =
    options.rolling === undefined
      ? () => undefined
      : rollingCheck(
          store,
          options.clock,
          options.rolling,
          (found) => {
            looked = found;
            context.complain(found.faults);
            // Vouched for once a day, right after all of it was looked at.
            if (found.whole) signDaily(context).catch((error: unknown) => app.log.error(error));
          },
          (error) => app.log.error(error),
        );
  const { backUp } = context;
  const asked = options.copies;
  if (asked !== undefined && backUp !== null) {
    const make = (at: string) => makeCopy({ ...context, backUp }, asked, at);
    copies = keepCopies(asked, options.clock, make, (what) => context.complain([what]));
  }
  app.addHook('onClose', async () => {
    stopWatching();
    stopLooking();
    copies?.stop();
  });
  // What is in force is looked through once at the start, so that no volunteer has to wait for it.
  app.addHook('onListen', async () => {
    await store.unreadable().catch((error: unknown) => app.log.error(error));
  });
  return app;
}

/** Says each thing once; how far a clock lies behind is another figure each time, and the same thing. */
function complainer(complain: (what: Said) => void): Context['complain'] {
  const said = new Set<string>();
  return (faults) => {
    for (const fault of faults) {
      const what = fault.say === 'server.clock-back' ? fault.say : JSON.stringify(fault);
      if (!said.has(what)) complain(fault);
      said.add(what);
    }
  };
}

/**
 * One JSON object a line. Of a request only its method and path: what stands behind the path, its headers and where it came
 * from may name people or let somebody in. What is told of signing in is chosen word by word (sign-in/told-to-log.ts).
 */
const logOf = (level: string, clock: () => string, stream: { readonly write: (line: string) => void }) => ({
  level,
  base: null,
  timestamp: () => `,"time":"${clock()}"`,
  formatters: { level: (label: string) => ({ level: label }) },
  serializers: {
    req: ({ method, url }: { readonly method: string; readonly url: string }) => ({ method, path: url.split('?')[0] }),
  },
  stream,
});
