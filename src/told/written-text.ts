import type { PlacedOrder } from '../core/animal/vet-order.js';
import { say } from '../words/say.js';

/** How an order came that somebody else wrote down, and whether it is countersigned; empty for any other. */
export function writtenText({ written }: Pick<PlacedOrder, 'written'>): string {
  if (written === undefined) return '';
  const { told, answered, writer } = written;
  const how = told === null ? 'written' : told.readBack ? 'told' : 'not-read-back';
  const state =
    answered === null
      ? say('order.written.open')
      : say(`order.written.${answered.says}`, { at: { instant: answered.at } });
  return say('order.written', { how: say(`order-told.${how}`), writer: { person: writer }, state });
}
