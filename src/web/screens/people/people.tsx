import { useMemo, useState } from 'react';
import { PersonId } from '../../../core/ids.js';
import { Role } from '../../../core/people.js';
import { describePerson } from '../../../log/commands/shelter.js';
import type { Person } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne, Tick } from '../../parts/choices.js';
import { DataTable } from '../../parts/data-table.js';
import { Field } from '../../parts/field.js';
import { Page } from '../../parts/page.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { State } from '../../parts/state.js';
import { newId, useShelter } from '../../store/here.js';

export function People() {
  const { people } = useShelter();
  const [editing, setEditing] = useState<Person | 'new' | null>(null);
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
      <DataTable
        caption={say('desk.people.title')}
        rows={people}
        keyOf={(one) => one.id}
        columns={[
          { id: 'name', label: say('desk.person.name'), names: true, cell: (one) => one.name },
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
              <Act
                size="small"
                label={say('desk.sections.change-one', { name: one.name })}
                onAct={() => setEditing(one)}
              >
                {say('desk.sections.change')}
              </Act>
            ),
          },
        ]}
      />
      {editing === null ? null : (
        <PersonSheet person={editing === 'new' ? null : editing} onClose={() => setEditing(null)} />
      )}
    </Page>
  );
}

function PersonSheet({ person, onClose }: { person: Person | null; onClose: () => void }) {
  const id = useMemo(() => person?.id ?? PersonId.parse(newId()), [person]);
  const [name, setName] = useState(person?.name ?? '');
  const [role, setRole] = useState<Role>(person?.role ?? 'volunteer');
  const [licence, setLicence] = useState(person?.licence ?? '');
  const [active, setActive] = useState(person?.active ?? true);
  const body = { person: id, name: name.trim(), role, licence: role === 'medical' ? licence.trim() : '', active };
  return (
    <RecordSheet
      title={person === null ? say('desk.start.add-person') : say('desk.sections.change-one', { name: person.name })}
      intent={body.name === '' ? { missing: say('desk.people.needs-name') } : describePerson(body, now())}
      action={say('desk.sections.record')}
      onClose={onClose}
    >
      <Field label={say('desk.person.name')} value={name} onChange={setName} maxLength={120} autoFocus />
      <ChooseOne
        label={say('desk.person.role')}
        options={Role.options.map((one) => ({
          id: one,
          label: say(`parts.role.${one}`),
          note: say(`parts.role-note.${one}`),
        }))}
        value={role}
        onChange={setRole}
      />
      {role === 'medical' ? (
        <Field
          label={say('desk.person.licence')}
          hint={say('desk.person.licence-hint')}
          value={licence}
          onChange={setLicence}
          maxLength={120}
        />
      ) : null}
      {person === null ? null : (
        <Tick
          label={say('desk.people.works-here')}
          note={say('desk.people.works-here-note')}
          value={active}
          onChange={setActive}
        />
      )}
    </RecordSheet>
  );
}
