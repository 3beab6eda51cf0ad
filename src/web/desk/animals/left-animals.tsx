import { useEffect, useState } from 'react';
import type { AnimalLine } from '../../../api/wire.js';
import type { After } from '../../../core/said.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';
import { AnimalLink } from '../../parts/links.js';
import { Notice } from '../../parts/state.js';
import { sync } from '../../store/exchange.js';

type Listed = 'fetching' | 'out-of-reach' | { readonly animals: readonly AnimalLine[]; readonly found: number };

/** Rows asked for at once; more are found by typing. */
const most = 300;
/** So long a pause in typing before the server is asked. */
const pause_ms = 250;

/** Animals that left: they are on the server, not on this device, and are fetched one by one when they are opened. */
export function LeftAnimals({ text }: { text: string }) {
  const [listed, setListed] = useState<Listed>('fetching');
  useEffect(() => {
    let over = false;
    const asked = text.trim() === '' ? {} : { find: text.trim().slice(0, 200) };
    const timer = setTimeout(() => {
      void sync.client.animals({ inCare: 'no', limit: most, ...asked }).then((answer) => {
        if (!over) setListed(answer.ok ? answer.value : 'out-of-reach');
      });
    }, pause_ms);
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [text]);
  if (listed === 'fetching') return <Notice tone="plain">{say('parts.fetching')}</Notice>;
  if (listed === 'out-of-reach') return <Notice tone="attention">{say('desk.animals.left-out-of-reach')}</Notice>;
  const { animals, found } = listed;
  return (
    <>
      <DataTable
        caption={say('desk.animals.left-title', { count: found })}
        rows={animals}
        keyOf={(one) => one.animal}
        empty={text === '' ? say('desk.animals.none') : say('desk.animals.none-found', { text })}
        columns={[
          {
            id: 'name',
            label: say('desk.animal.animal'),
            names: true,
            cell: ({ animal: id, name, label }) => <AnimalLink animal={{ id, name, label }} />,
          },
          {
            id: 'label',
            label: say('desk.animal.number'),
            keepLine: true,
            cell: ({ label }) => <span className="mono small">{label}</span>,
          },
          {
            id: 'left',
            label: say('desk.animals.show.left'),
            cell: ({ leftOn, leftHow }) =>
              leftOn === null
                ? ''
                : say('desk.animal.left-on', {
                    on: { date: leftOn },
                    how: say(`desk.left.${(leftHow ?? 'other') as After<'desk.left.'>}`),
                  }),
          },
          {
            id: 'chip',
            label: say('desk.animal.chip'),
            keepLine: true,
            cell: ({ chip }) => (chip === null ? '' : <span className="mono small">{chipText(chip)}</span>),
          },
        ]}
      />
      {found > animals.length ? (
        <p className="soft">{say('desk.animals.more', { count: found - animals.length })}</p>
      ) : null}
    </>
  );
}
