import { join } from 'node:path';
import type { Plugin } from 'vite';
import type { Message } from '../words/language.js';

type Messages = Readonly<Record<string, Message>>;

/** Text that can be a key, or the beginning of one that is put together at run time. */
const mayBeKey = /['"`]([a-z][\w-]*\.[\w.-]*)(\$\{)?/g;

/** The messages that a source can say: those whose key stands in it, and those that begin as one put together there. */
export function saidIn(source: string, catalogue: Messages): Messages {
  const said: Record<string, Message> = {};
  for (const [, text = '', open] of source.matchAll(mayBeKey)) {
    if (open === undefined) {
      const message = Object.hasOwn(catalogue, text) ? catalogue[text] : undefined;
      if (message !== undefined) said[text] = message;
      continue;
    }
    for (const [key, message] of Object.entries(catalogue)) if (key.startsWith(text)) said[key] = message;
  }
  return said;
}

/**
 * For vite: every part of the web app brings the messages it can say, so that the first page does not fetch those of all
 * others. What no part brings (what the server says in keys) is fetched when it is said (shell/words.ts). The sources stay
 * as they are: the whole catalogue gives way to `words/english-as-needed.ts`, and each module teaches it at its head. `src`:
 * the folder of the sources; `catalogue`: every message by key, parsed where it is more than text and values.
 */
export function wordsWithParts(src: string, catalogue: Messages): Plugin {
  const asNeeded = join(src, 'words/english-as-needed.ts');
  const words = join(src, 'words');
  const every = join(src, 'web/shell/every-message.ts');
  return {
    name: 'words-with-parts',
    enforce: 'pre',
    resolveId: (asked, importer) => (asked === './english.js' && importer?.startsWith(words) ? asNeeded : null),
    transform(code, id) {
      const path = id.split('?')[0] ?? id;
      if (!path.startsWith(src) || path.startsWith(words) || !/\.tsx?$/.test(path)) return null;
      const said = path === every ? catalogue : saidIn(code, catalogue);
      if (Object.keys(said).length === 0) return null;
      // On the first line, so that every other line keeps its number.
      const head = `import { learn as learnWords } from ${JSON.stringify(asNeeded)};learnWords(${JSON.stringify(said)});`;
      return { code: head + code, map: null };
    },
  };
}
