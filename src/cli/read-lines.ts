import { createInterface } from 'node:readline';

export interface JsonLine {
  /** From 1, blank lines counted. */
  readonly line: number;
  readonly text: string;
  /** Undefined when the line is no JSON. */
  readonly value: unknown;
}

/** JSON values on stdin, one a line; blank lines are skipped. */
export async function* jsonLines(): AsyncGenerator<JsonLine> {
  let line = 0;
  for await (const raw of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    line++;
    const text = line === 1 ? raw.replace(/^\uFEFF/, '') : raw;
    if (text.trim() !== '') yield { line, text, value: parsed(text) };
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
