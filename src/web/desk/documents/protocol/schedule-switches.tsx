import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { ChooseSome } from '../../../parts/fields/choices.js';
import { withSchedule } from './edited.js';

interface SwitchesProps {
  readonly document: ProtocolDocument;
  readonly onChange: (document: ProtocolDocument) => void;
}

/** Which schedules this shelter uses at all. */
export function ScheduleSwitches({ document, onChange }: SwitchesProps) {
  const used = document.schedules.filter((one) => one.active).map((one) => one.id as string);
  const choose = (ids: readonly string[]): void => {
    const switched = document.schedules.find((one) => one.active !== ids.includes(one.id));
    if (switched === undefined) return;
    const edited = withSchedule(document, switched.id, { active: ids.includes(switched.id) });
    if (edited.ok) onChange(edited.document);
  };
  return (
    <details>
      <summary>{say('protocol-desk.schedules-used')}</summary>
      <ChooseSome
        label={say('protocol-desk.schedules-used')}
        options={document.schedules.map((one) => ({ id: one.id as string, label: one.name }))}
        value={used}
        onChange={choose}
        flow
      />
    </details>
  );
}
