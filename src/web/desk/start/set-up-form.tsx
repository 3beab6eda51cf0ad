import { useState } from 'react';
import type { SetUp, ShelterState } from '../../../api/wire.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { FindOne } from '../../parts/fields/pick.js';
import { Notice } from '../../parts/state.js';
import { SecretField } from '../../sign-in/secret-field.js';
import { sync } from '../../store/exchange.js';
import { store, useStatusOf } from '../../store/here.js';
import { readKennels } from './kennels.js';
import { PeopleRows, type PersonRow, type SectionRow, SectionRows, usualPeople, usualSections } from './set-up-rows.js';

const units = ['g', 'kg', 'lb'] as const;
const zones: readonly string[] = Intl.supportedValuesOf('timeZone');

interface SetUpFormProps {
  readonly onBack: () => void;
  readonly onDone: (state: ShelterState) => Promise<void>;
}

export function SetUpForm({ onBack, onDone }: SetUpFormProps) {
  const device = useStatusOf('device');
  const [name, setName] = useState('');
  const [zone, setZone] = useState(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const [unit, setUnit] = useState<(typeof units)[number]>('g');
  const [sections, setSections] = useState<readonly SectionRow[]>(usualSections);
  const [people, setPeople] = useState<readonly PersonRow[]>(usualPeople);
  const [code, setCode] = useState('');
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);

  const missing = whatIsMissing(name, sections, people, code, secret);
  const make = async (): Promise<void> => {
    if (device === null || missing !== null) {
      setFailed(missing);
      return;
    }
    const asked: SetUp = {
      name,
      zone,
      weightUnit: unit,
      sections: sections.map((row) => ({ name: row.name, rank: row.rank, kennels: readKennels(row.kennels) })),
      people: people.map(({ name: who, role, licence }) => ({ name: who, role, licence })),
      me: 0,
      device,
      code,
      secret,
    };
    const answer = await sync.client.setUp(asked);
    if (!answer.ok) {
      setFailed(answer.problem?.detail ?? say('desk.start.no-answer'));
      return;
    }
    await store.chooseWho({ person: answer.value.person, partner: null });
    await onDone(answer.value.shelter);
  };

  return (
    <form className="stack loose" onSubmit={(event) => event.preventDefault()}>
      <section className="stack" style={{ maxWidth: 560 }}>
        <h2>{say('desk.start.own-title')}</h2>
        <Field label={say('desk.start.name')} value={name} onChange={setName} required maxLength={120} />
        <FindOne
          label={say('desk.start.zone')}
          hint={say('desk.start.zone-hint')}
          options={zones.map((id) => ({ id, label: id }))}
          value={zone}
          onChange={setZone}
        />
        <ChooseOne
          label={say('desk.start.unit')}
          options={units.map((id) => ({ id, label: say(`parts.unit.${id}`) }))}
          value={unit}
          onChange={setUnit}
          flow
        />
      </section>
      <SectionRows rows={sections} onChange={setSections} />
      <PeopleRows rows={people} onChange={setPeople} />
      <section className="stack" style={{ maxWidth: 560 }}>
        <h2>{say('people.in.title')}</h2>
        <p className="soft">{say('people.in.first-lead')}</p>
        <Field label={say('people.in.first-code')} value={code} onChange={setCode} maxLength={40} />
        <SecretField
          label={say('people.in.new-password')}
          hint={say('people.in.password-hint')}
          value={secret}
          onChange={setSecret}
        />
      </section>
      <p className="soft">{say('desk.start.then')}</p>
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <div className="row">
        <Act main size="mid" onAct={make}>
          {say('desk.start.make')}
        </Act>
        <Act onAct={onBack}>{say('parts.back')}</Act>
      </div>
    </form>
  );
}

function whatIsMissing(
  name: string,
  sections: readonly SectionRow[],
  people: readonly PersonRow[],
  code: string,
  secret: string,
): string | null {
  if (name.trim() === '') return say('desk.start.needs-name');
  if (sections.length === 0 || sections.some((row) => row.name.trim() === '')) return say('desk.start.needs-sections');
  if (people.length === 0 || people.some((row) => row.name.trim() === '')) return say('desk.start.needs-people');
  const me = people[0];
  if (me === undefined || (me.role !== 'supervisor' && me.role !== 'medical')) return say('desk.start.needs-desk');
  if (code.trim() === '' || secret === '') return say('desk.start.needs-code');
  return null;
}
