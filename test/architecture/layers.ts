import { dirname, join } from 'node:path/posix';
import { type Import, parseSource } from './source.js';
import { type Findings, filesOf, isTest, source, type Tree } from './tree.js';

/** A layer: which layers it may import, which of them as types only, and which packages (`*` ends a beginning). Why: docs/decisions/0002. */
interface Layer {
  readonly layers: readonly string[];
  readonly types?: readonly string[];
  readonly packages: readonly string[];
}

export const layers: Readonly<Record<string, Layer>> = {
  // The messages alone: the compiler holds every key and its values against them, from the core up.
  'words/en': { layers: [], packages: [] },
  core: { layers: [], types: ['words/en'], packages: ['zod', 'temporal-polyfill', 'decimal.js'] },
  // Words tell instants in the shelter's zone, for which the platform alone would need an ambient Date.
  words: { layers: ['core', 'words/en'], packages: ['intl-messageformat', 'temporal-polyfill'] },
  log: { layers: ['core'], packages: ['zod', '@noble/hashes'] },
  // What the record and the core say, in sentences for people.
  told: { layers: ['core', 'log', 'words'], packages: [] },
  // What is printed: what stands on each paper, before anything draws it.
  papers: { layers: ['core', 'log', 'words', 'told'], packages: [] },
  demo: { layers: ['core', 'log'], packages: [] },
  api: { layers: ['core', 'log'], packages: ['zod'] },
  // Files that are written, for server, command line and desk alike.
  exports: { layers: ['core', 'log', 'words', 'api'], packages: [] },
  store: { layers: ['core', 'log'], packages: ['kysely', 'better-sqlite3', 'node:*'] },
  server: {
    layers: ['core', 'log', 'words', 'api', 'exports', 'store', 'demo'],
    packages: [
      'fastify',
      '@fastify/*',
      'fastify-type-provider-zod',
      'openapi-types',
      'pino',
      'tar',
      'uuid',
      'zod',
      'node:*',
    ],
  },
  cli: {
    layers: ['core', 'log', 'words', 'api', 'exports', 'store', 'server', 'demo'],
    packages: ['uuid', 'node:*'],
  },
  // The browser's own digest is there in a secure context only, which a phone on the shelter's network may not be.
  device: { layers: ['core', 'log', 'api'], packages: ['zod', 'dexie', '@noble/hashes'] },
  web: {
    layers: ['core', 'log', 'api', 'words', 'told', 'papers', 'exports', 'device'],
    packages: [
      'zod',
      'react',
      'react-dom',
      'react-aria-components',
      'wouter',
      'bwip-js',
      'uuid',
      '@noble/hashes',
      '@fontsource/*',
      '@fontsource-variable/*',
      'virtual:pwa-register*',
      'workbox-*',
    ],
  },
};

/** Packages that one place may use and the rest of its layer may not. */
const onlyUnder: readonly { readonly at: string; readonly packages: readonly string[] }[] = [
  { at: 'src/core/intake/', packages: ['papaparse'] },
  { at: 'src/exports/csv.ts', packages: ['papaparse'] },
  { at: 'src/server/photo/', packages: ['sharp'] },
  { at: 'src/server/copies/', packages: ['age-encryption'] },
  { at: 'src/server/lan/', packages: ['@peculiar/*', 'reflect-metadata', '@homebridge/ciao', 'bwip-js'] },
  { at: 'src/server/sign-in/', packages: ['@noble/hashes', '@zxcvbn-ts/language-common'] },
  { at: 'src/web/temporal.ts', packages: ['temporal-polyfill'] },
  { at: 'src/web/words-with-parts.ts', packages: ['vite', 'node:*'] },
  { at: 'src/web/vite.config.ts', packages: ['vite', '@vitejs/plugin-react', 'vite-plugin-pwa', 'node:*'] },
];

/** Files that are no module of ours, by what their name ends in, and may be imported as they are. */
const assets = /\.(css|json|svg)(\?\w+)?$/;

/**
 * Which imports break the order of the layers, the list of packages, or the way imports are written. Tests beside the
 * source keep to the same layers; they may use any package that package.json declares, Node, and test/support.
 */
export function layerFaults(tree: Tree): Findings {
  const faults: string[] = [];
  const declared = declaredPackages(tree);
  let read = 0;
  for (const [path, text] of filesOf(tree, source)) {
    read += 1;
    const name = layerOf(path);
    const layer = Object.hasOwn(layers, name) ? layers[name] : undefined;
    if (layer === undefined) {
      faults.push(`${path}:1 is in no layer`);
      continue;
    }
    for (const one of parseSource(path, text).imports) {
      const { from, line } = one;
      const fault = from.startsWith('.')
        ? relativeFault(path, one, name, layer)
        : packageFault(path, from, name, layer, declared);
      if (fault !== null) faults.push(`${path}:${line} imports ${from}${fault}`);
    }
  }
  return { read, faults };
}

/** The layer of a file: a folder of src, or one in it that is a layer by itself. */
function layerOf(path: string): string {
  const [, name = '', inner = ''] = path.split('/');
  return Object.hasOwn(layers, `${name}/${inner}`) ? `${name}/${inner}` : name;
}

function relativeFault(path: string, { from, typeOnly }: Import, name: string, layer: Layer): string | null {
  if (!from.endsWith('.js') && !assets.test(from)) return ', which does not end in .js';
  const target = join(dirname(path), from);
  if (isTest(path) && target.startsWith('test/support/')) return null;
  const other = target.startsWith('src/') ? layerOf(target) : target;
  if (other === name || layer.layers.includes(other)) return null;
  if (layer.types?.includes(other)) return typeOnly ? null : `: ${name} may import types of ${other}, and nothing else`;
  return `: ${name} may not import ${other}`;
}

function packageFault(path: string, from: string, name: string, layer: Layer, declared: Declared): string | null {
  const builtIn = from.startsWith('node:') || from.startsWith('virtual:');
  const bare = builtIn ? from : from.split('/', from.startsWith('@') ? 2 : 1).join('/');
  const config = onlyUnder.some((one) => one.at === path);
  if (!builtIn && !declared.runs.has(bare) && !((isTest(path) || config) && declared.develops.has(bare))) {
    return ', which package.json does not declare';
  }
  if (isTest(path)) return null;
  const here = onlyUnder.filter((one) => path.startsWith(one.at)).flatMap((one) => one.packages);
  return [...layer.packages, ...here].some((allowed) => matches(allowed, bare))
    ? null
    : `, a package ${name} may not use`;
}

const matches = (allowed: string, name: string): boolean =>
  allowed.endsWith('*') ? name.startsWith(allowed.slice(0, -1)) : allowed === name;

interface Declared {
  readonly runs: ReadonlySet<string>;
  readonly develops: ReadonlySet<string>;
}

function declaredPackages(tree: Tree): Declared {
  const text = tree.get('package.json');
  if (text === undefined) throw new Error('no package.json in the tree');
  const { dependencies = {}, devDependencies = {} } = JSON.parse(text) as Record<string, Record<string, string>>;
  return { runs: new Set(Object.keys(dependencies)), develops: new Set(Object.keys(devDependencies)) };
}

/** Each layer's tsconfig must name exactly the layers it may import: the compiler keeps the order too. */
export function referenceFaults(tree: Tree): Findings {
  const faults: string[] = [];
  let read = 0;
  for (const [name, layer] of Object.entries(layers)) {
    const text = tree.get(`src/${name}/tsconfig.json`);
    if (text === undefined) continue;
    read += 1;
    const { references = [] } = JSON.parse(text) as { references?: { path: string }[] };
    const named = references.map((one) => join(name, one.path)).sort();
    const wanted = [...layer.layers, ...(layer.types ?? [])].sort();
    if (named.join() !== wanted.join()) {
      faults.push(
        `src/${name}/tsconfig.json:1 refers to ${named.join(', ')}; the layer may import ${wanted.join(', ')}`,
      );
    }
  }
  return { read, faults };
}
