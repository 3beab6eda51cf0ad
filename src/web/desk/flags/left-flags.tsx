import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { FlagLine } from '../../../api/wire.js';
import type { FlagCode } from '../../../log/flag.js';
import { animalName } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';
import { animalPath } from '../../parts/links.js';
import { Part } from '../../parts/page.js';
import { Notice, State } from '../../parts/state.js';
import { sync } from '../../store/exchange.js';
import { useStatusOf, useWorld } from '../../store/here.js';

/**
 * Open flags about animals that left: they are worked out on the server, since these animals are not on this device. They
 * are answered on the page of the animal, which is fetched for it.
 */
export function LeftFlags() {
  const world = useWorld();
  const heardAt = useStatusOf('heardAt');
  const [lines, setLines] = useState<readonly FlagLine[] | 'fetching' | 'out-of-reach'>('fetching');
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again whenever the server was met
  useEffect(() => {
    let over = false;
    void sync.client.flags({ state: ['open', 'taken'] }).then((answer) => {
      if (!over) setLines(answer.ok ? answer.value.flags : 'out-of-reach');
    });
    return () => {
      over = true;
    };
  }, [heardAt]);
  if (lines === 'fetching') return null;
  if (lines === 'out-of-reach') return <Notice tone="attention">{say('desk.flags.left-out-of-reach')}</Notice>;
  const rows = lines.filter(({ animal }) => animal !== null && !world.animals.has(animal));
  if (rows.length === 0) return null;
  return (
    <Part title={say('desk.flags.left-title', { count: rows.length })}>
      <p className="soft">{say('desk.flags.left-what')}</p>
      <DataTable
        caption={say('desk.flags.left-title', { count: rows.length })}
        rows={rows}
        keyOf={({ key }) => key}
        columns={[
          {
            id: 'what',
            label: say('desk.flags.what'),
            cell: ({ code, severity }) => <State tone={severity}>{say(`flag-name.${code as FlagCode}`)}</State>,
          },
          {
            id: 'who',
            label: say('desk.flags.who'),
            names: true,
            cell: ({ animal }) =>
              animal === null ? '' : <Link href={animalPath(animal)}>{animalName(world, animal)}</Link>,
          },
          { id: 'why', label: say('desk.flags.why'), cell: ({ reason }) => reason },
        ]}
      />
    </Part>
  );
}
