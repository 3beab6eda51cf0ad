import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Rolldown } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { english } from '../words/english.js';
import { parsed, plainParts } from '../words/message.js';
import { fewFiles } from './few-files.js';
import { wordsWithParts } from './words-with-parts.js';

const here = fileURLToPath(new URL('.', import.meta.url));
const src = fileURLToPath(new URL('..', import.meta.url)).replace(/\/$/, '');
const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
const server = process.env.ROUNDHAND_SERVER ?? 'http://127.0.0.1:8600';

/** What is more than text and values is parsed here, so that no parser has to be fetched. */
const messages = Object.fromEntries(
  Object.entries(english.messages).map(([key, message]) => [
    key,
    typeof message === 'string' && plainParts(message) === null ? parsed(message) : message,
  ]),
);

/** That what stands in for writing schemas down (no-json-schema.ts) does not have it all is meant; all else is told. */
const onLog = (level: Rolldown.LogLevel, log: Rolldown.RolldownLog, tell: Rolldown.LogOrStringHandler): void => {
  if (log.code === 'IMPORT_IS_UNDEFINED' && log.message.includes('no-json-schema')) return;
  tell(level, log);
};

export default defineConfig({
  root: here,
  define: { __ROUNDHAND_VERSION__: JSON.stringify(version) },
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    sourcemap: true,
    chunkSizeWarningLimit: 2000,
    rolldownOptions: { onLog, output: { codeSplitting: { groups: fewFiles(src) } } },
  },
  resolve: {
    alias: [
      // Messages come parsed.
      {
        find: /^@formatjs\/icu-messageformat-parser$/,
        replacement: '@formatjs/icu-messageformat-parser/no-parser.js',
      },
      // Schemas judge here; nobody writes them down.
      {
        find: /^\.\.\/core\/(?:to-json-schema|json-schema-processors)\.js$/,
        replacement: `${src}/web/no-json-schema.ts`,
      },
      // Most browsers have it: then it is not fetched.
      { find: /^temporal-polyfill$/, replacement: `${src}/web/temporal.ts` },
    ],
  },
  worker: { rolldownOptions: { onLog } },
  server: { proxy: { '/api': server } },
  preview: { proxy: { '/api': server } },
  plugins: [
    react(),
    wordsWithParts(src, messages),
    VitePWA({
      // A new version waits until a person says so; it is never offered during a round (see store/version.ts).
      registerType: 'prompt',
      injectRegister: false,
      includeAssets: ['icon.svg', 'icon-192.png', 'icon-512.png'],
      manifest: {
        name: 'Roundhand',
        short_name: 'Roundhand',
        description: 'Treatment rounds of a cat shelter or kitten nursery.',
        start_url: '/',
        display: 'standalone',
        background_color: '#f6f1e4',
        theme_color: '#f6f1e4',
        icons: [
          { src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' },
          { src: '/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,png,woff2}'],
        navigateFallback: '/index.html',
        navigateFallbackDenylist: [/^\/api\//],
        // Records never go through the service worker: what is saved and sent is the store's own business.
        runtimeCaching: [],
        // The old version's files stay until every page of it is closed.
        cleanupOutdatedCaches: true,
        maximumFileSizeToCacheInBytes: 6_000_000,
      },
    }),
  ],
});
