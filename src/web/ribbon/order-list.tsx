import { useRef } from 'react';
import { Button, GridList, GridListItem, useDragAndDrop } from 'react-aria-components';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { putAt, stepBy } from './order-moves.js';

interface OrderListProps {
  readonly label: string;
  /** Animals in the order of the plan. */
  readonly order: readonly string[];
  readonly nameOf: (animal: string) => string;
  readonly noteOf: (animal: string) => string;
  readonly litterOf: (animal: string) => string;
  readonly onOrder: (order: readonly string[]) => void;
}

/**
 * The animals of one section in the order of the plan, to be dragged, or moved with the arrows beside them. The plan
 * decides whether an order breaks a rule, this list only says what is wished.
 */
export function OrderList({ label, order, nameOf, noteOf, litterOf, onOrder }: OrderListProps) {
  const items = order.map((id) => ({ id }));
  const { dragAndDropHooks } = useDragAndDrop({
    getItems: (keys) => [...keys].map((key) => ({ 'text/plain': nameOf(String(key)) })),
    onReorder: ({ keys, target }) => {
      const [moved] = keys;
      const gap = order.indexOf(String(target.key)) + (target.dropPosition === 'after' ? 1 : 0);
      if (moved !== undefined) onOrder(putAt(order, litterOf, String(moved), gap));
    },
  });
  const list = useRef<HTMLDivElement>(null);
  const shift = (id: string, by: 1 | -1): void => {
    const next = stepBy(order, litterOf, id, by);
    // At an end the arrow that was pressed is one no more: whoever works with keys goes on from the row.
    if (next.at(by === 1 ? -1 : 0) === id) list.current?.querySelector<HTMLElement>(`[data-key="${id}"]`)?.focus();
    onOrder(next);
  };
  return (
    <GridList ref={list} aria-label={label} items={items} dragAndDropHooks={dragAndDropHooks} className="order-list">
      {({ id }) => (
        <GridListItem id={id} textValue={nameOf(id)} className="order-item">
          <Button slot="drag" className="order-grip" aria-label={say('ribbon.order.drag', { animal: nameOf(id) })}>
            <span aria-hidden="true">⠿</span>
          </Button>
          <span>
            {nameOf(id)} <span className="soft small">{noteOf(id)}</span>
          </span>
          <span className="row">
            <Act
              size="small"
              label={say('ribbon.order.up', { animal: nameOf(id) })}
              disabled={order[0] === id}
              onAct={() => shift(id, -1)}
            >
              ↑
            </Act>
            <Act
              size="small"
              label={say('ribbon.order.down', { animal: nameOf(id) })}
              disabled={order.at(-1) === id}
              onAct={() => shift(id, 1)}
            >
              ↓
            </Act>
          </span>
        </GridListItem>
      )}
    </GridList>
  );
}
