import type { LogRecord } from '../log/record.js';

/** A record, or something about to be recorded, as one sentence. */
export type Tellable = {
  [K in LogRecord['kind']]: Pick<LogRecord<K>, 'kind' | 'body' | 'subject'> & { corrects?: string | undefined };
}[LogRecord['kind']];
