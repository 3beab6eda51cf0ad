import type { PersonId } from '../../../core/ids.js';
import type { RoundFacts } from '../../../log/views/round-facts.js';
import { mayAppend } from '../../../log/who-may.js';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Pick } from '../../parts/fields/pick.js';
import { usePeople, usePerson } from '../../store/here.js';

export interface WhoDid {
  readonly by: PersonId | null;
  readonly with: PersonId | null;
}
export const nobodyYet: WhoDid = { by: null, with: null };

interface WhoDidFieldsProps {
  readonly facts: RoundFacts;
  readonly value: WhoDid;
  readonly onChange: (who: WhoDid) => void;
}

/** People who may treat; only they can have done what stands on a sheet. */
export function useTreaters(): readonly { readonly id: PersonId; readonly label: string }[] {
  return usePeople()
    .filter((one) => one.active && mayAppend(one.role, 'treatment-given'))
    .map(({ id, name }) => ({ id, label: name }));
}

const none = 'none';

/** Who did what stands on the sheet; whoever keys it in is another question, and answered by the top of the page. */
export function WhoDidFields({ facts, value, onChange }: WhoDidFieldsProps) {
  const treaters = useTreaters();
  const writer = usePerson();
  const holder = facts.holder === null ? say('desk.nobody') : personName(facts.holder);
  return (
    <fieldset className="stack tight bare">
      <legend className="label">{say('ribbon.key-in.who')}</legend>
      <div className="row end">
        <Pick<PersonId>
          label={say('ribbon.key-in.treated')}
          options={treaters}
          value={value.by}
          onChange={(by) => onChange({ by, with: value.with === by ? null : value.with })}
          narrow
        />
        <Pick<PersonId | typeof none>
          label={say('ribbon.key-in.held')}
          options={[{ id: none, label: say('ribbon.key-in.nobody') }, ...treaters.filter(({ id }) => id !== value.by)]}
          value={value.with ?? none}
          onChange={(id) => onChange({ ...value, with: id === none ? null : id })}
          narrow
        />
        {value.by === facts.treater && value.with === facts.holder ? null : (
          <Act onAct={() => onChange({ by: facts.treater, with: facts.holder })}>
            {say('ribbon.key-in.as-head', { treater: personName(facts.treater), holder })}
          </Act>
        )}
      </div>
      {writer === null ? null : <p className="soft small">{say('ribbon.key-in.writer', { writer: writer.name })}</p>}
    </fieldset>
  );
}
