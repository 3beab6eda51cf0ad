import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import swagger from '@fastify/swagger';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { problems } from '../api/problems.js';
import type { Route } from '../api/route.js';
import { type RouteName, routes } from '../api/routes.js';
import { routesTold } from '../api/routes-told.js';
import { routeRights } from '../core/rights/rights.js';
import { memoryStore } from '../store/memory/store.js';
import { createApp } from './app.js';
import { versionOf } from './start.js';

const path = fileURLToPath(new URL('../../openapi.json', import.meta.url));

/** The API as an OpenAPI 3.1 document, worked out from the same table that the server and the client are made from. */
export async function describeApi(): Promise<string> {
  const app = await createApp({
    store: memoryStore(),
    clock: () => '2026-01-01T00:00:00.000Z',
    version: versionOf(),
    before: async (plain) => {
      await plain.register(swagger, {
        openapi: {
          openapi: '3.1.0',
          info: {
            title: 'Roundhand',
            version: versionOf(),
            description:
              'Treatment rounds of a shelter. It advises; local law and the licensed veterinarian of record come first.',
          },
          components: {
            securitySchemes: {
              session: {
                type: 'apiKey',
                in: 'cookie',
                name: '__Host-roundhand-session',
                description:
                  'Set by signing in, seen by no script; without https roundhand-session. Who may ask what: src/core/rights/rights.ts.',
              },
            },
          },
        },
        transform: jsonSchemaTransform,
        transformObject: jsonSchemaTransformObject,
      });
    },
  });
  await app.ready();
  const document = JSON.parse(JSON.stringify(app.swagger())) as Described;
  await app.close();
  for (const name of Object.keys(routes) as RouteName[]) finish(document, name);
  dropUnused(document);
  return `${JSON.stringify(document, null, 2)}\n`;
}

interface Described {
  readonly paths: Record<string, Record<string, Operation>>;
  readonly components: { readonly schemas: Record<string, object> };
}
interface Operation {
  responses: Record<string, { description?: string; content?: object }>;
  parameters?: { name: string; schema?: { type?: string }; style?: string; explode?: boolean }[];
  security?: object[];
  requestBody?: object;
}

/** What the plugin cannot know: who may ask, what a status means here, and answers that are not JSON. */
function finish(document: Described, name: RouteName): void {
  const route: Route = routes[name];
  const told = routesTold[name];
  const operation = document.paths[route.path]?.[route.method.toLowerCase()];
  if (operation === undefined) throw new Error(`${route.method} ${route.path} is not described`);
  if (routeRights[name] !== 'anyone') operation.security = [{ session: [] }];
  if (route.bytes === true) {
    const content = { 'application/octet-stream': { schema: { type: 'string', format: 'binary' } } };
    operation.requestBody = { required: true, content };
  }
  for (const parameter of operation.parameters ?? []) {
    if (parameter.schema?.type === 'array') Object.assign(parameter, { style: 'form', explode: false });
  }
  for (const [status, response] of Object.entries(operation.responses)) {
    const codes = told.problems.filter((code) => String(problems[code].status) === status);
    response.description = codes.length > 0 ? codes.join(', ') : told.what;
  }
  const other = typeof route.answer.is === 'string' ? route.answer.is : route.answer.orElse;
  if (other === undefined) return;
  const status = String(route.answer.status);
  const before = typeof route.answer.is === 'string' ? {} : (operation.responses[status]?.content ?? {});
  const content = { ...before, [other]: { schema: { type: 'string' } } };
  operation.responses[status] = { description: told.what, content };
}

/** The plugin writes every shape as it is sent and as it is answered; only those that something points to are kept. */
function dropUnused(document: Described): void {
  const { schemas } = document.components;
  for (let before = -1; before !== Object.keys(schemas).length; ) {
    before = Object.keys(schemas).length;
    const text = JSON.stringify(document);
    for (const name of Object.keys(schemas)) {
      if (!text.includes(`"#/components/schemas/${name}"`)) delete schemas[name];
    }
  }
}

/** `node dist/server/openapi.js` writes openapi.json; with `--check` it only says whether the file is up to date. */
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const now = await describeApi();
  if (process.argv.includes('--check')) {
    const kept = readFileSync(path, 'utf8');
    if (kept !== now) {
      process.stderr.write('openapi.json is not what the routes say: run this again without --check.\n');
      process.exitCode = 1;
    }
  } else {
    writeFileSync(path, now);
  }
}
