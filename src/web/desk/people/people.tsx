import { useState } from 'react';
import type { KnownPerson } from '../../../log/views/shelter.js';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { Page } from '../../parts/page.js';
import { Notice, State } from '../../parts/state.js';
import { store, usePeople, useShelter, useWaiting } from '../../store/here.js';
import { PersonSheet } from './person-sheet.js';
import { SignInCode } from './sign-in-code.js';

export function People() {
  const people = usePeople();
  const waiting = useWaiting();
  const [editing, setEditing] = useState<KnownPerson | 'new' | null>(null);
  const { demo } = useShelter();
  const [caring, setCaring] = useState<KnownPerson | null>(null);
  const waits = (id: string): boolean => waiting.some((one) => one.id === id && one.why === null);
  return (
    <Page
      title={say('desk.people.title')}
      lead={say('desk.people.lead')}
      acts={
        <Act main onAct={() => setEditing('new')}>
          {say('desk.start.add-person')}
        </Act>
      }
    >
      {waiting.map(({ id, change, why }) =>
        why === null ? null : (
          <Notice key={id} tone="stop">
            {say('desk.people.turned-away', { name: change.name ?? personName(id), why })}{' '}
            <Act onAct={() => store.people.drop(id)}>{say('desk.people.forget')}</Act>
          </Notice>
        ),
      )}
      <DataTable
        caption={say('desk.people.title')}
        rows={people}
        keyOf={(one) => one.id}
        columns={[
          {
            id: 'name',
            label: say('desk.person.name'),
            names: true,
            cell: (one) => (
              <>
                {one.name}
                {waits(one.id) ? <div className="soft small">{say('desk.people.waits')}</div> : null}
              </>
            ),
          },
          { id: 'role', label: say('desk.person.role'), cell: (one) => say(`parts.role.${one.role}`) },
          {
            id: 'licence',
            label: say('desk.person.licence'),
            cell: (one) => <span className="mono small">{one.licence}</span>,
          },
          {
            id: 'state',
            label: say('desk.due.state'),
            cell: (one) =>
              one.active ? say('desk.people.active') : <State tone="plain">{say('desk.people.gone')}</State>,
          },
          {
            id: 'do',
            label: say('desk.flags.do'),
            cell: (one) => (
              <span className="row">
                <Act
                  size="small"
                  label={say('desk.sections.change-one', { name: one.name })}
                  onAct={() => setEditing(one)}
                >
                  {say('desk.sections.change')}
                </Act>
                {one.active && !demo ? (
                  <Act size="small" label={say('people.care.title', { name: one.name })} onAct={() => setCaring(one)}>
                    {say('people.care.short')}
                  </Act>
                ) : null}
              </span>
            ),
          },
        ]}
      />
      {caring === null ? null : <SignInCode person={caring} onClose={() => setCaring(null)} />}
      {editing === null ? null : (
        <PersonSheet person={editing === 'new' ? null : editing} onClose={() => setEditing(null)} />
      )}
    </Page>
  );
}
