import type { z } from 'zod';
import type { BlobId, Photo } from '../core/animal/photo.js';
import { Problem, type ProblemCode } from './problems.js';
import { headers, type Route } from './route.js';
import { carriedRoutes } from './routes-carried.js';

/**
 * As much of the platform's `fetch` as is needed, so that a browser, Node and a test can each bring theirs. A line that
 * carries text only leaves `arrayBuffer` out; over it no picture comes.
 */
export type Fetch = (
  url: string,
  init: { method: string; headers: Record<string, string>; body?: string | Uint8Array<ArrayBuffer> },
) => Promise<{ readonly status: number; text(): Promise<string>; arrayBuffer?(): Promise<ArrayBuffer> }>;

/** What a client says of the device it runs on; who asks is in a cookie that it does not see. */
export interface Identity {
  /** The device's clock, UTC ISO text, so that the server can tell how far it is off. */
  readonly now: () => string;
  /** Version of the program on this device; the list of devices shows it. */
  readonly version?: string;
}

type Table = Readonly<Record<string, Route>>;
type Carried = typeof carriedRoutes;
type QueryOf<R> = R extends { readonly query: infer Q extends z.ZodType } ? z.input<Q> : undefined;
type BodyOf<R> = R extends { readonly body: infer B extends z.ZodType } ? z.input<B> : undefined;
type AnswerOf<R> = R extends { readonly answer: { readonly is: infer A extends z.ZodType } } ? z.output<A> : never;

/** Routes of a table that take and answer JSON; events, backup and CSV are fetched by their path. */
type JsonRoute<T> = {
  [N in keyof T]: T[N] extends { readonly bytes: true }
    ? never
    : T[N] extends { readonly answer: { readonly is: z.ZodType } }
      ? N
      : never;
}[keyof T];

/** `unreachable`: no answer came; `not-understood`: an answer came that is not ours (a proxy, another version). */
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      readonly code: ProblemCode | 'unreachable' | 'not-understood';
      readonly problem: Problem | null;
    };

type Ask<R> =
  BodyOf<R> extends undefined
    ? QueryOf<R> extends undefined
      ? () => Promise<Answer<AnswerOf<R>>>
      : (query?: QueryOf<R>) => Promise<Answer<AnswerOf<R>>>
    : (body: BodyOf<R>) => Promise<Answer<AnswerOf<R>>>;

/** One function for each route of a table. */
export type Asks<T> = { readonly [N in JsonRoute<T>]: Ask<T[N]> };

export type Client = Asks<Carried> & {
  /** A photograph that this device cannot read itself, to be made into the two pictures over there. */
  readonly takePhoto: (bytes: Uint8Array<ArrayBuffer>) => Promise<Answer<Photo>>;
  /** A picture that this device has made; `id` is its SHA-256. */
  readonly keepPicture: (id: BlobId, bytes: Uint8Array<ArrayBuffer>) => Promise<Answer<{ readonly id: BlobId }>>;
  readonly picture: (id: BlobId) => Promise<Answer<Uint8Array<ArrayBuffer>>>;
  /** Address of a route, for EventSource and for downloads. */
  readonly url: (route: keyof Carried, query?: Readonly<Record<string, unknown>>) => string;
  /** The same over another table of routes, which comes with the screens that ask them. */
  readonly asks: <T extends Table>(table: T) => Asks<T>;
};

/**
 * A client of the server at `base` (no slash at its end; empty for the same origin). No method ever rejects: what went
 * wrong is in the answer.
 */
export function createClient(fetch: Fetch, base: string, identity: Identity): Client {
  const addressOf = ({ path }: Route, query?: Readonly<Record<string, unknown>>): string =>
    base + path + queryText(query);

  const headersOf = (type: string | null): Record<string, string> => {
    return {
      accept: 'application/json',
      [headers.now]: identity.now(),
      ...(identity.version === undefined ? {} : { [headers.version]: identity.version }),
      ...(type === null ? {} : { 'content-type': type }),
    };
  };

  /** Bytes one way or both ways; `id` goes into the address. */
  async function carry(route: Route, id: BlobId | null, sent: Uint8Array<ArrayBuffer> | null) {
    const address = base + (id === null ? route.path : route.path.replace('{id}', id));
    try {
      const answer = await fetch(address, {
        method: route.method,
        headers: headersOf(sent === null ? null : 'application/octet-stream'),
        ...(sent === null ? {} : { body: sent }),
      });
      if (answer.status !== route.answer.status || typeof route.answer.is !== 'string')
        return understand(route, answer.status, await answer.text());
      if (answer.arrayBuffer === undefined) return notUnderstood;
      return { ok: true as const, value: new Uint8Array(await answer.arrayBuffer()) };
    } catch {
      return { ok: false as const, code: 'unreachable' as const, problem: null };
    }
  }

  async function ask(route: Route, sent: unknown): Promise<Answer<unknown>> {
    const asked = {
      method: route.method,
      headers: headersOf(route.body === undefined ? null : 'application/json'),
      ...(route.body === undefined ? {} : { body: JSON.stringify(sent ?? {}) }),
    };
    let status: number;
    let text: string;
    try {
      const answer = await fetch(
        addressOf(route, route.body === undefined ? (sent as Record<string, unknown>) : undefined),
        asked,
      );
      status = answer.status;
      text = await answer.text();
    } catch {
      return { ok: false, code: 'unreachable', problem: null };
    }
    return understand(route, status, text);
  }

  // Each function gets and gives what its route says; the compiler cannot follow a map over all of them.
  const asks = <T extends Table>(table: T): Asks<T> =>
    Object.fromEntries(
      Object.entries(table).map(([name, route]) => [name, (sent?: unknown) => ask(route, sent)]),
    ) as unknown as Asks<T>;
  const { takePhoto, keepPicture, picture } = carriedRoutes;
  return {
    ...asks(carriedRoutes),
    takePhoto: (bytes) => carry(takePhoto, null, bytes) as Promise<Answer<Photo>>,
    keepPicture: (id, bytes) => carry(keepPicture, id, bytes) as Promise<Answer<{ readonly id: BlobId }>>,
    picture: (id) => carry(picture, id, null) as Promise<Answer<Uint8Array<ArrayBuffer>>>,
    url: (name, query) => addressOf(carriedRoutes[name], query),
    asks,
  };
}

const notUnderstood = { ok: false, code: 'not-understood', problem: null } as const;

function understand(route: Route, status: number, text: string): Answer<unknown> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return notUnderstood;
  }
  if (status === route.answer.status && typeof route.answer.is !== 'string') {
    const value = route.answer.is.safeParse(json);
    return value.success ? { ok: true, value: value.data } : notUnderstood;
  }
  const problem = Problem.safeParse(json);
  return problem.success ? { ok: false, code: problem.data.code, problem: problem.data } : notUnderstood;
}

function queryText(query: Readonly<Record<string, unknown>> | undefined): string {
  const parts = Object.entries(query ?? {})
    .filter(([, value]) => value !== undefined)
    .map(
      ([name, value]) =>
        `${encodeURIComponent(name)}=${encodeURIComponent(Array.isArray(value) ? value.join(',') : String(value))}`,
    );
  return parts.length === 0 ? '' : `?${parts.join('&')}`;
}

export type { ProblemCode };
