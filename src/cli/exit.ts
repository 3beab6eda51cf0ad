import { type Given, type Key, made, type Said, type SayValues } from '../core/said.js';

/**
 * How a command ends. 0: done. 1: it could not be done, or what was looked at is not in order. 2: it was called wrongly.
 * `why` goes to stderr as one sentence; a command that has said everything itself gives none.
 */
export interface Exit {
  readonly code: 0 | 1 | 2;
  readonly why?: Said;
}

export const done: Exit = { code: 0 };

export const failed = (why: Said): Exit => ({ code: 1, why });
export function misused<K extends Key>(key: K, ...values: Given<K>): Exit;
export function misused(key: Key, values?: SayValues): Exit {
  return { code: 2, why: made(key, values) };
}

export const isExit = (value: unknown): value is Exit =>
  typeof value === 'object' && value !== null && 'code' in value && [0, 1, 2].includes(Number(value.code));
