import { useMemo } from 'react';
import type { ProtocolDocument } from '../../../core/protocol/document.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { dueOf } from '../../../log/views/due.js';
import { inCare } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { DataTable } from '../../parts/data-table.js';
import { useWorld } from '../../store/here.js';
import { nameOf } from '../../told/names.js';

interface Change {
  readonly key: string;
  readonly name: string;
  readonly what: string;
  readonly before: string;
  readonly after: string;
}

const asText = (item: DueItem | undefined): string =>
  item === undefined
    ? say('parts.none')
    : say('desk.effect.item', { status: say(`desk.due.status.${item.status}`), due: item.due ?? '' });

/** What signing this version would change for the animals that are here today. */
export function EffectOfSigning({ protocol }: { protocol: ProtocolDocument }) {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const changes = useMemo((): Change[] => {
    return inCare(world).flatMap((animal) => {
      const before = new Map(dueOf(animal, shelter, today).map((item) => [item.schedule as string, item]));
      const after = new Map(
        dueOf(animal, { ...shelter, protocol }, today).map((item) => [item.schedule as string, item]),
      );
      return [...new Set([...before.keys(), ...after.keys()])].flatMap((schedule) => {
        const [was, will] = [before.get(schedule), after.get(schedule)];
        if (was?.status === will?.status && was?.due === will?.due) return [];
        const what = will?.scheduleName ?? was?.scheduleName ?? schedule;
        return [
          { key: `${animal.id} ${schedule}`, name: nameOf(animal), what, before: asText(was), after: asText(will) },
        ];
      });
    });
  }, [world, shelter, protocol, today]);
  const animals = new Set(changes.map((change) => change.name)).size;
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
            keyOf={(change) => change.key}
            columns={[
              { id: 'name', label: say('desk.animal.animal'), names: true, cell: (change) => change.name },
              { id: 'what', label: say('desk.due.treatment'), cell: (change) => change.what },
              { id: 'before', label: say('desk.effect.before'), cell: (change) => change.before },
              { id: 'after', label: say('desk.effect.after'), cell: (change) => change.after },
            ]}
          />
        </details>
      )}
    </div>
  );
}
