import { carriedRoutes } from './routes-carried.js';
import { signInRoutes } from './routes-sign-in.js';

/** Every route of the server, once: validation, clients and openapi.json all come from here. */
export const routes = { ...carriedRoutes, ...signInRoutes } as const;

export type RouteName = keyof typeof routes;
