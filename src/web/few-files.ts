/** What is loaded with the first pages, by the module it begins with. */
const roots: Readonly<Record<string, readonly string[]>> = {
  program: ['/web/main.tsx'],
  phone: ['/web/phone/opening.ts'],
  desk: ['/web/desk/opening.ts'],
  exchange: ['/web/store/exchange.ts'],
};

interface Graph {
  readonly getModuleInfo: (id: string) => { readonly importedIds: readonly string[] } | null;
}

/**
 * For the bundler: what the first pages need goes into few files, for each file costs a way over the line and some 800
 * bytes of headers. What both the phone's and the desk's first page need is a file that both take; all else is divided by
 * who uses it.
 */
export function fewFiles(src: string) {
  let found: ReadonlyMap<string, string> | null = null;
  // In this order, as each file takes what its modules need along.
  return ['program', 'phone-desk', 'phone', 'desk', 'exchange'].map((file, index) => ({
    debugName: file,
    priority: 10 - index,
    name: (id: string, graph: Graph): string | null => {
      found ??= filesOf(graph, src);
      return found.get(id) === file ? file : null;
    },
  }));
}

function filesOf(graph: Graph, src: string): ReadonlyMap<string, string> {
  const reached = Object.entries(roots).map(([name, from]) => {
    const seen = new Set<string>();
    const walk = (id: string): void => {
      if (seen.has(id)) return;
      seen.add(id);
      for (const next of graph.getModuleInfo(id)?.importedIds ?? []) walk(next);
    };
    for (const path of from) walk(`${src}${path}`);
    return { name, seen };
  });
  const files = new Map<string, string>();
  for (const id of reached.flatMap(({ seen }) => [...seen])) {
    const names = reached.flatMap(({ name, seen }) => (seen.has(id) ? [name] : []));
    // The exchange takes what a page has already from there.
    const pages = names.filter((name) => name !== 'exchange');
    files.set(id, names.includes('program') ? 'program' : pages.join('-') || 'exchange');
  }
  return files;
}
