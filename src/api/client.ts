import type { z } from 'zod';
import { Problem, type ProblemCode, problems, problemType } from './problems.js';
import { headers, type Route, type RouteName, routes } from './routes.js';

/** As much of the platform's `fetch` as is needed, so that a browser, Node and a test can each bring theirs. */
export type Fetch = (
  url: string,
  init: { method: string; headers: Record<string, string>; body?: string },
) => Promise<{ readonly status: number; text(): Promise<string> }>;

/** Who is asking, looked up anew for every request. */
export interface Identity {
  readonly person: () => string | null;
  /** The device's clock, UTC ISO text, so that the server can tell how far it is off. */
  readonly now: () => string;
}

type Routes = typeof routes;
type Named<N extends RouteName> = Routes[N];
type QueryOf<N extends RouteName> =
  Named<N> extends { readonly query: infer Q extends z.ZodType } ? z.input<Q> : undefined;
type BodyOf<N extends RouteName> =
  Named<N> extends { readonly body: infer B extends z.ZodType } ? z.input<B> : undefined;
type AnswerOf<N extends RouteName> = Named<N>['answer']['is'] extends infer A extends z.ZodType ? z.output<A> : never;

/** Routes that answer with JSON; events, backup and CSV are fetched by their path. */
export type JsonRoute = { [N in RouteName]: Named<N>['answer']['is'] extends z.ZodType ? N : never }[RouteName];

/** `unreachable`: no answer came; `not-understood`: an answer came that is not ours (a proxy, another version). */
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      readonly code: ProblemCode | 'unreachable' | 'not-understood';
      readonly problem: Problem | null;
    };

type Ask<N extends RouteName> =
  BodyOf<N> extends undefined
    ? QueryOf<N> extends undefined
      ? () => Promise<Answer<AnswerOf<N>>>
      : (query?: QueryOf<N>) => Promise<Answer<AnswerOf<N>>>
    : (body: BodyOf<N>) => Promise<Answer<AnswerOf<N>>>;

export type Client = { readonly [N in JsonRoute]: Ask<N> } & {
  /** Address of a route, for EventSource and for downloads. */
  readonly url: (route: RouteName, query?: Readonly<Record<string, unknown>>) => string;
};

/**
 * A client of the server at `base` (no slash at its end; empty for the same origin). No method ever rejects: what went
 * wrong is in the answer.
 */
export function createClient(fetch: Fetch, base: string, identity: Identity): Client {
  const url = (route: RouteName, query?: Readonly<Record<string, unknown>>): string =>
    base + routes[route].path + queryText(query);

  async function ask(name: RouteName, sent: unknown): Promise<Answer<unknown>> {
    const route: Route = routes[name];
    const person = identity.person();
    const asked = {
      method: route.method,
      headers: {
        accept: 'application/json',
        [headers.now]: identity.now(),
        ...(person === null ? {} : { [headers.person]: person }),
        ...(route.body === undefined ? {} : { 'content-type': 'application/json' }),
      },
      ...(route.body === undefined ? {} : { body: JSON.stringify(sent ?? {}) }),
    };
    let status: number;
    let text: string;
    try {
      const answer = await fetch(
        url(name, route.body === undefined ? (sent as Record<string, unknown>) : undefined),
        asked,
      );
      status = answer.status;
      text = await answer.text();
    } catch {
      return { ok: false, code: 'unreachable', problem: null };
    }
    return understand(route, status, text);
  }

  const names = Object.keys(routes) as RouteName[];
  const asks = Object.fromEntries(names.map((name) => [name, (sent?: unknown) => ask(name, sent)]));
  // Each function gets and gives what its route says; the compiler cannot follow a map over all of them.
  return { ...asks, url } as unknown as Client;
}

function understand(route: Route, status: number, text: string): Answer<unknown> {
  const notUnderstood = { ok: false, code: 'not-understood', problem: null } as const;
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

export { type ProblemCode, problems, problemType };
