import { once } from 'node:events';
import type { Said } from '../core/said.js';
import { say } from '../words/say.js';

/** One line to people or to the next program. */
export const tell = (line = ''): void => {
  process.stdout.write(`${line}\n`);
};

export const complain = (what: Said | string): void => {
  process.stderr.write(`${typeof what === 'string' ? what : say(what)}\n`);
};

/** Long output, as fast as whoever reads it takes it. */
export async function pour(pieces: AsyncIterable<string> | Iterable<string>): Promise<void> {
  for await (const piece of pieces) if (!process.stdout.write(piece)) await once(process.stdout, 'drain');
}

/** Whoever reads our output may stop early (`| head`): that is no failure. */
export function letReadersStop(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
}

/** A value for JSON with every sentence in it put into words beside its key. */
export function withWords(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withWords);
  if (typeof value !== 'object' || value === null) return value;
  if (isSaid(value)) return { say: value.say, words: say(value) };
  const told: Record<string, unknown> = {};
  for (const name of Object.keys(value)) told[name] = withWords((value as Record<string, unknown>)[name]);
  return told;
}

const isSaid = (value: object): value is Said => 'say' in value && typeof value.say === 'string';
