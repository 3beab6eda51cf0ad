import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { problemOfTrouble, problems } from '../api/problems.js';
import type { Route } from '../api/route.js';
import { routes } from '../api/routes.js';
import { routesTold } from '../api/routes-told.js';
import { storeTroubles } from '../log/store.js';
import { english } from '../words/english.js';
import { describeApi } from './openapi.js';

const keysUnder = (start: string): string[] =>
  Object.keys(english.messages)
    .filter((key) => key.startsWith(start))
    .map((key) => key.slice(start.length))
    .sort();

describe('the catalogue of problems', () => {
  it('has a sentence for every code and a code for every sentence', () => {
    expect(keysUnder('server.problem.')).toEqual(Object.keys(problems).sort());
    expect(keysUnder('server.store.')).toEqual([...storeTroubles].sort());
    expect(Object.keys(problemOfTrouble).sort()).toEqual([...storeTroubles].sort());
  });

  it('is named by the routes only where it is known', () => {
    for (const told of Object.values(routesTold)) {
      for (const code of told.problems) expect(Object.keys(problems)).toContain(code);
    }
  });
});

describe('openapi.json', () => {
  it('is what the routes say (node dist/server/openapi.js writes it)', async () => {
    const now = await describeApi();
    expect(JSON.parse(readFileSync(new URL('../../openapi.json', import.meta.url), 'utf8'))).toEqual(JSON.parse(now));
  });

  it('is OpenAPI 3.1, has every route once, and points only at what is there', async () => {
    const text = await describeApi();
    const document = JSON.parse(text) as {
      openapi: string;
      paths: Record<string, object>;
      components: { schemas: object };
    };
    expect(document.openapi).toMatch(/^3\.1\./);
    const described = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
    );
    expect(described.sort()).toEqual(
      Object.values<Route>(routes)
        .map(({ method, path }) => `${method} ${path}`)
        .sort(),
    );
    const pointed = [...text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map((match) => match[1]);
    expect(pointed.length).toBeGreaterThan(10);
    for (const name of pointed) expect(Object.keys(document.components.schemas)).toContain(name);
  });
});
