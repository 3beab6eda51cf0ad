import { useMemo } from 'react';
import type { ProtocolDocument } from '../../../core/protocol/document.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { effectOfSigning } from '../../../log/views/effect-of-signing.js';
import { inCare } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { DataTable } from '../../parts/data-table.js';
import { useWorld } from '../../store/here.js';
import { nameOf } from '../../told/names.js';

const asText = (item: DueItem | null): string =>
  item === null
    ? say('parts.none')
    : say('desk.effect.item', { status: say(`desk.due.status.${item.status}`), due: item.due ?? '' });

/** What signing this version would change for the animals that are here today. */
export function EffectOfSigning({ protocol }: { protocol: ProtocolDocument }) {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const { effects: changes, animals } = useMemo(
    () => effectOfSigning({ shelter, animals: inCare(world) }, protocol, today),
    [world, shelter, protocol, today],
  );
  return (
    <div className="stack tight">
      <p>
        <b>{say('desk.effect.count', { count: changes.length, animals })}</b>
      </p>
      {changes.length === 0 ? null : (
        <details>
          <summary>{say('desk.effect.show')}</summary>
          <DataTable
            caption={say('desk.effect.show')}
            rows={changes.slice(0, 300)}
            keyOf={(change) => `${change.animal.id} ${change.schedule}`}
            columns={[
              { id: 'name', label: say('desk.animal.animal'), names: true, cell: (change) => nameOf(change.animal) },
              { id: 'what', label: say('desk.due.treatment'), cell: (change) => change.scheduleName },
              { id: 'before', label: say('desk.effect.before'), cell: (change) => asText(change.before) },
              { id: 'after', label: say('desk.effect.after'), cell: (change) => asText(change.after) },
            ]}
          />
        </details>
      )}
    </div>
  );
}
