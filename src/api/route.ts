import type { z } from 'zod';

export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT';
  /** `{name}` stands for a part of the address, read by `params`. */
  readonly path: string;
  readonly query?: z.ZodType;
  readonly body?: z.ZodType;
  readonly params?: z.ZodType;
  /** The body is bytes of any media type, in place of JSON; what they are is judged by the bytes. */
  readonly bytes?: true;
  /** Status and shape of the answer when all is well; a text names the media type of an answer that is not JSON. */
  readonly answer: { readonly status: 200 | 201; readonly is: z.ZodType | string; readonly orElse?: string };
}

/** Request headers. Who asks is in a cookie that no script sees. */
export const headers = {
  now: 'x-roundhand-now',
  version: 'x-roundhand-version',
} as const;
