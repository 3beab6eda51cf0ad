import { useState } from 'react';
import type { PersonId } from '../../../core/ids.js';
import type { Role } from '../../../core/people.js';
import { allKnown } from '../../../words/known.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { store, useNames } from '../../store/here.js';

interface ChoosePersonProps {
  readonly shelter: string;
  readonly people: readonly { readonly id: PersonId; readonly role: Role }[];
}

/** Who is holding this device; the partner can be named later, on the top line. */
export function ChoosePerson({ shelter, people }: ChoosePersonProps) {
  const [person, setPerson] = useState<PersonId | null>(null);
  useNames();
  const options = allKnown(people).map((one) => ({ id: one.id, label: one.name, note: say(`parts.role.${one.role}`) }));
  return (
    <section className="stack" style={{ maxWidth: 560 }}>
      <h2>{shelter}</h2>
      <ChooseOne label={say('desk.start.who')} options={options} value={person} onChange={setPerson} />
      <Act
        main
        size="big"
        disabled={person === null}
        onAct={() => (person === null ? undefined : store.chooseWho({ person, partner: null }))}
      >
        {say('desk.start.begin')}
      </Act>
    </section>
  );
}
