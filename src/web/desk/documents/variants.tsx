import { useState } from 'react';
import type { SectionId } from '../../../core/ids.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import { withVariant } from '../../../core/protocol/document/variant.js';
import { switchVariant } from '../../../log/commands/order.js';
import { sectionOf } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { Part } from '../../parts/page.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { State } from '../../parts/state.js';
import { usePerson, useShelter } from '../../store/here.js';
import { type SideBySide, sideBySide } from './protocol/changes.js';
import { SourceTitle } from './sourced.js';

/** Signed values for a time of higher risk, and where each is in force. */
export function Variants({ protocol, inForce }: { protocol: ProtocolDocument; inForce: boolean }) {
  const shelter = useShelter();
  const person = usePerson();
  const [open, setOpen] = useState(false);
  if (protocol.variants.length === 0) return null;
  const where = (variant: string): string =>
    [...shelter.variants]
      .filter(([, one]) => one.variant === variant)
      .map(([place]) => (place === 'all' ? say('desk.variant.everywhere') : (sectionOf(shelter, place)?.name ?? place)))
      .join(', ');
  const licensed = person !== null && person.licence !== '';
  return (
    <Part
      title={say('desk.variant.title')}
      acts={
        inForce ? (
          <Act disabled={!licensed} onAct={() => setOpen(true)}>
            {say('desk.variant.switch')}
          </Act>
        ) : undefined
      }
    >
      <p className="soft">{say('desk.variant.lead')}</p>
      {protocol.variants.map((variant) => (
        <div key={variant.id} className="sheet stack tight keep">
          <h3>{variant.name}</h3>
          <p>{variant.words}</p>
          {inForce ? (
            <State tone={where(variant.id) === '' ? 'plain' : 'attention'}>
              {where(variant.id) === ''
                ? say('desk.variant.off')
                : say('desk.variant.in-force', { where: where(variant.id) })}
            </State>
          ) : null}
          <ul className="small">
            {valuesOf(protocol, variant.id).map(({ key, schedule, what, before, after }) => (
              <li key={key}>
                {say('desk.variant.value', {
                  at: say('desk.doc.in-place', { place: schedule, what }),
                  from: before?.value ?? say('parts.none'),
                  to: after?.value ?? say('parts.none'),
                })}
              </li>
            ))}
          </ul>
          <p className="small">
            <SourceTitle id={variant.source} sources={protocol.sources} />{' '}
            <span className="soft">{say(`desk.standing.${variant.standing}`)}</span>
          </p>
        </div>
      ))}
      {open ? <SwitchSheet protocol={protocol} onClose={() => setOpen(false)} /> : null}
    </Part>
  );
}

/** What a variant makes of each value that it changes. */
function valuesOf(protocol: ProtocolDocument, variant: string): SideBySide[] {
  const switched = withVariant(protocol, variant);
  return switched === null
    ? []
    : sideBySide(protocol, switched).filter((row) => row.before?.value !== row.after?.value);
}

function SwitchSheet({ protocol, onClose }: { protocol: ProtocolDocument; onClose: () => void }) {
  const shelter = useShelter();
  const person = usePerson();
  const [variant, setVariant] = useState<string>('routine');
  const [section, setSection] = useState<SectionId | 'all'>('all');
  const [why, setWhy] = useState('');
  const intent = (): Intent => {
    if (person === null) return { missing: say('parts.nobody-working') };
    if (why.trim() === '') return { missing: say('desk.variant.needs-why') };
    const wanted = {
      variant: variant === 'routine' ? null : variant,
      section: section === 'all' ? null : section,
      why: why.trim(),
    };
    return switchVariant(shelter, person, wanted, now());
  };
  return (
    <RecordSheet
      title={say('desk.variant.switch-title')}
      intent={intent()}
      action={say('desk.variant.switch')}
      onClose={onClose}
    >
      <ChooseOne
        label={say('desk.variant.which')}
        options={[
          { id: 'routine', label: say('desk.variant.routine') },
          ...protocol.variants.map((one) => ({ id: one.id as string, label: one.name, note: one.words })),
        ]}
        value={variant}
        onChange={setVariant}
      />
      <Pick<SectionId | 'all'>
        label={say('desk.variant.where')}
        options={[
          { id: 'all' as const, label: say('desk.variant.everywhere') },
          ...shelter.sections.filter((one) => !one.closed).map((one) => ({ id: one.id, label: one.name })),
        ]}
        value={section}
        onChange={setSection}
      />
      <Field label={say('desk.variant.why')} value={why} onChange={setWhy} lines required maxLength={300} />
    </RecordSheet>
  );
}
