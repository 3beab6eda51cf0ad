export interface JsonLine {
  /** From 1, blank lines counted. */
  readonly line: number;
  readonly text: string;
  /** Undefined when the line is no JSON. */
  readonly value: unknown;
}

/**
 * JSON values on stdin, one a line; blank lines are skipped. They come in bursts, as they arrive: waiting anew for each
 * of a hundred thousand lines would cost more than reading them.
 */
export async function* jsonLines(): AsyncGenerator<readonly JsonLine[]> {
  let line = 0;
  let rest = '';
  const read = (texts: readonly string[]): JsonLine[] => {
    const found: JsonLine[] = [];
    for (const raw of texts) {
      line++;
      const text = (line === 1 ? raw.replace(/^\uFEFF/, '') : raw).trim();
      if (text !== '') found.push({ line, text, value: parsed(text) });
    }
    return found;
  };
  process.stdin.setEncoding('utf8');
  for await (const chunk of process.stdin) {
    const texts = (rest + String(chunk)).split('\n');
    rest = texts.pop() ?? '';
    if (texts.length > 0) yield read(texts);
  }
  if (rest !== '') yield read([rest]);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
