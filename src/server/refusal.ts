import { STATUS_CODES } from 'node:http';
import { type Problem, type ProblemCode, problems, problemType } from '../api/problems.js';
import { type Given, made, type Said, type SayValues } from '../core/said.js';
import type { Say } from '../words/say.js';

/** What a route answers instead of what was asked for. The sentence is the code's own unless a closer one is given. */
export interface Refusal {
  readonly refused: ProblemCode;
  readonly why: Said;
}

export const refuse = <C extends ProblemCode>(code: C, ...[values]: Given<`server.problem.${C}`>): Refusal => ({
  refused: code,
  why: made(`server.problem.${code}`, values as SayValues | undefined),
});

export const refuseBecause = (code: ProblemCode, why: Said): Refusal => ({ refused: code, why });

export const isRefusal = (answer: unknown): answer is Refusal =>
  typeof answer === 'object' && answer !== null && 'refused' in answer && 'why' in answer;

/** A refusal as it goes over the wire (RFC 9457). */
export function problemOf({ refused, why }: Refusal, say: Say): Problem {
  return {
    type: problemType(refused),
    title: STATUS_CODES[problems[refused].status] ?? refused,
    status: problems[refused].status,
    detail: say(why),
    code: refused,
    said: onWire(why),
  };
}

/** A sentence as message key and values. */
export const onWire = (why: Said): NonNullable<Problem['said']> => ({
  say: why.say,
  ...(why.with === undefined ? {} : { with: { ...why.with } }),
});
