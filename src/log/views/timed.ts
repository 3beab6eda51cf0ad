import type { Clocked } from '../../core/clocked.js';
import { clocked } from '../device-clock.js';
import type { LogRecord } from '../record.js';

/**
 * When a standing record happened, by the clock it was taken from. A correction that leaves the time as it was leaves
 * whose clock that was, too, whoever wrote the correction down.
 */
export function timedBy(records: readonly LogRecord[]): (standing: LogRecord) => Clocked {
  return (standing) => {
    const first = records.find((record) => record.id === standing.id);
    return clocked(first?.happenedAt === standing.happenedAt ? first : standing);
  };
}
