import type { PlacedOrder } from '../core/animal/vet-order.js';
import type { ProtocolDocument } from '../core/protocol/document/document.js';
import { lapsesAt } from '../core/protocol/vet-orders/lapse.js';
import { say } from '../words/say.js';

/**
 * How an order came that somebody else wrote down, whether it is countersigned, and until when it counts without; empty for
 * any other.
 */
export function writtenText(order: Pick<PlacedOrder, 'written'>, protocol: ProtocolDocument | null): string {
  const { written } = order;
  if (written === undefined) return '';
  const { told, answered, writer } = written;
  const how = told === null ? 'written' : told.readBack ? 'told' : 'not-read-back';
  const until = lapsesAt(order, protocol);
  const state =
    until !== null
      ? say('order.written.open-until', { at: { instant: until } })
      : answered === null
        ? say('order.written.open')
        : say(`order.written.${answered.says}`, { at: { instant: answered.at } });
  return say('order.written', { how: say(`order-told.${how}`), writer: { person: writer }, state });
}
