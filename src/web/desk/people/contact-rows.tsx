import { Contact } from '../../../log/private-side.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';

export interface NewContact extends Contact {
  readonly key: number;
}

export const rowsOf = (contacts: readonly Contact[]): readonly NewContact[] =>
  contacts.map((one, key) => ({ ...one, key }));

/** What is filled in; an empty line is none. */
export const contactsOf = (rows: readonly NewContact[]): Contact[] =>
  rows.flatMap(({ by, value }) => (value.trim() === '' ? [] : [{ by, value: value.trim() }]));

interface ContactRowsProps {
  readonly rows: readonly NewContact[];
  readonly onChange: (rows: readonly NewContact[]) => void;
}

/** Ways to reach a person, each on a line. */
export function ContactRows({ rows, onChange }: ContactRowsProps) {
  const edit = (key: number, patch: Partial<Contact>): void =>
    onChange(rows.map((row) => (row.key === key ? { ...row, ...patch } : row)));
  const next = Math.max(-1, ...rows.map(({ key }) => key)) + 1;
  return (
    <fieldset className="stack tight bare">
      <legend className="label">{say('desk.people.contacts')}</legend>
      {rows.map((row) => (
        <div key={row.key} className="row end form-line">
          <Pick
            label={say('desk.people.contact-by')}
            options={Contact.shape.by.options.map((id) => ({ id, label: say(`desk.people.contact.${id}`) }))}
            value={row.by}
            onChange={(by) => edit(row.key, { by })}
          />
          <Field
            label={say(`desk.people.contact.${row.by}`)}
            value={row.value}
            onChange={(value) => edit(row.key, { value })}
            maxLength={300}
          />
          <Act
            label={say('desk.start.leave-out', { name: row.value })}
            onAct={() => onChange(rows.filter((one) => one.key !== row.key))}
          >
            {say('parts.leave-out')}
          </Act>
        </div>
      ))}
      {rows.length >= 20 ? null : (
        <div>
          <Act onAct={() => onChange([...rows, { key: next, by: 'telephone', value: '' }])}>
            {say('desk.people.add-contact')}
          </Act>
        </div>
      )}
    </fieldset>
  );
}
