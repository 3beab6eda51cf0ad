import { useEffect, useMemo, useState } from 'react';
import { PersonId } from '../../../core/ids.js';
import { Role } from '../../../core/people.js';
import { no, ok } from '../../../core/said.js';
import { describePerson } from '../../../log/commands/shelter.js';
import type { PrivatePerson } from '../../../log/private-side.js';
import type { KnownPerson } from '../../../log/views/shelter.js';
import { mayAppend, whoMayInWords } from '../../../log/who-may.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne, Tick } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { Sheet } from '../../parts/sheet.js';
import { sync } from '../../store/exchange.js';
import { newId, store, useNames, usePerson } from '../../store/here.js';
import { ContactRows, contactsOf, type NewContact, rowsOf } from './contact-rows.js';
import { Erase } from './erase.js';

interface PersonSheetProps {
  readonly person: KnownPerson | null;
  readonly onClose: () => void;
}

/** What the server's private side has about a person; null out of reach of it, or where it is not for whoever asks. */
type InFull = PrivatePerson | 'nobody' | null;

/** Somebody new, or somebody anew. Contacts are looked up at the server each time and stay nowhere on the device. */
export function PersonSheet({ person, onClose }: PersonSheetProps) {
  const [full, setFull] = useState<InFull | 'asking'>(person === null ? 'nobody' : 'asking');
  useEffect(() => {
    if (person === null) return;
    let over = false;
    void sync.client.peopleInFull().then((answer) => {
      if (over) return;
      setFull(answer.ok ? (answer.value.people.find(({ id }) => id === person.id) ?? 'nobody') : null);
    });
    return () => {
      over = true;
    };
  }, [person]);
  if (full !== 'asking') return <PersonForm person={person} full={full} onClose={onClose} />;
  return (
    <Sheet title={say('desk.sections.change-one', { name: person?.name ?? '' })} open onClose={onClose}>
      <p role="status">{say('desk.people.asking')}</p>
    </Sheet>
  );
}

function PersonForm({ person, full, onClose }: PersonSheetProps & { readonly full: InFull }) {
  const id = useMemo(() => person?.id ?? PersonId.parse(newId()), [person]);
  const here = useNames().get(id);
  const me = usePerson();
  const kept = full === null || full === 'nobody' ? null : full;
  const [name, setName] = useState(kept?.name ?? here?.name ?? '');
  const [role, setRole] = useState<Role>(person?.role ?? 'volunteer');
  const [licence, setLicence] = useState(kept?.licence ?? here?.licence ?? '');
  const [active, setActive] = useState(person?.active ?? true);
  const [contacts, setContacts] = useState<readonly NewContact[]>(() => rowsOf(kept?.contacts ?? []));
  const [given, setGiven] = useState(kept?.withdrawn !== true);
  const drafts =
    person !== null && person.role === role && person.active === active
      ? []
      : describePerson({ person: id, role, active }, now());
  const change = {
    id,
    name: name.trim(),
    licence: role === 'medical' ? licence.trim() : '',
    ...(full === null ? {} : { contacts: contactsOf(contacts), withdrawn: !given }),
  };
  /** Names and contacts are no records: they are kept here until the server has them. */
  const keep = async () => {
    if (me === null) return no('parts.nobody-working');
    if (!mayAppend(me.role, 'person-described'))
      return no('server.problem.record-not-allowed', {
        name: me.name,
        roles: whoMayInWords('person-described'),
      });
    const before = kept ?? (full === null && here !== undefined ? { ...here } : null);
    return sameAs(before, change) ? ok(null) : store.people.change(change, me.id);
  };
  return (
    <RecordSheet
      title={person === null ? say('desk.start.add-person') : say('desk.sections.change-one', { name: person.name })}
      intent={change.name === '' ? { missing: say('desk.people.needs-name') } : drafts}
      first={keep}
      values={{ name: change.name }}
      action={say('desk.sections.record')}
      onClose={onClose}
    >
      <p className="soft small">{say('desk.people.beside')}</p>
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
      {full === null ? (
        <p className="soft">{say('desk.people.contacts-not-here')}</p>
      ) : (
        <ContactRows rows={contacts} onChange={setContacts} />
      )}
      {person === null ? null : (
        <Tick
          label={say('desk.people.works-here')}
          note={say('desk.people.works-here-note')}
          value={active}
          onChange={setActive}
        />
      )}
      {person === null || full === null ? null : (
        <Tick label={say('desk.people.given')} note={say('desk.people.given-note')} value={given} onChange={setGiven} />
      )}
      {person !== null && !person.active && kept !== null ? <Erase person={person} onDone={onClose} /> : null}
    </RecordSheet>
  );
}

/** Whether a change says only what was known before. */
const sameAs = (before: object | null, change: object): boolean =>
  before !== null &&
  Object.entries(change).every(
    ([key, value]) =>
      key === 'id' || JSON.stringify(value) === JSON.stringify((before as Record<string, unknown>)[key]),
  );
