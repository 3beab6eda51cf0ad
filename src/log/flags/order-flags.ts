import type { Animal } from '../../core/animal/animal.js';
import { lapsesAt } from '../../core/protocol/vet-orders/lapse.js';
import { said } from '../../core/said.js';
import { type Raised, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { isBesideOrder } from '../views/effective.js';
import type { Ground } from '../views/ground.js';

/**
 * Orders that somebody else wrote down in a veterinarian's name: open until the veterinarian has countersigned, which no
 * words of anybody close; and those that the veterinarian says are not theirs.
 */
export function orderFlags(
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  { protocol }: Ground,
): Raised[] {
  return animal.orders.flatMap((order): Raised[] => {
    const { record: id, terms, written } = order;
    const record = standing.find((one) => one.id === id);
    if (written === undefined || record === undefined || written.answered?.says === 'mine') return [];
    const { told, answered } = written;
    const code = answered === null ? 'order-to-countersign' : 'order-disowned';
    const beside = isBesideOrder(record, (one) => records.find((other) => other.id === one));
    const how = beside ? 'beside' : told === null ? 'written' : told.readBack ? 'told' : 'not-read-back';
    const values = {
      animal: animal.name,
      order: terms.name,
      by: { person: terms.vet },
      how: said(`order-told.${how}`),
    };
    const until = lapsesAt(order, protocol);
    return [
      {
        key: `${code}:${id}`,
        code,
        severity: answered !== null || how !== 'told' ? 'stop' : 'attention',
        animal: animal.id,
        about: id,
        raisedAt: answered?.at ?? record.happenedAt,
        for: answered === null ? ['medical'] : ['supervisor', 'medical'],
        why:
          code === 'order-to-countersign' && until !== null
            ? said('flag.order-to-countersign.until', { ...values, at: { instant: until } })
            : said(`flag.${code}`, values),
        by: record.by,
        ...writerOf(record),
        ...(answered === null ? { followUp: null } : {}),
      },
    ];
  });
}
