import { type SectionRank, sectionRanks } from '../../../core/biosecurity/section.js';
import { Role } from '../../../core/people.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { Part } from '../../parts/page.js';
import { SectionHatch } from '../../parts/section-hatch.js';

export interface SectionRow {
  readonly key: number;
  readonly name: string;
  readonly rank: SectionRank;
  readonly kennels: string;
}
export interface PersonRow {
  readonly key: number;
  readonly name: string;
  readonly role: Role;
  readonly licence: string;
}

export const usualSections = (): readonly SectionRow[] =>
  sectionRanks
    .filter((rank) => rank !== 'foster')
    .map((rank, key) => ({ key, name: say(`parts.rank.${rank}`), rank, kennels: '1-6' }));

export const usualPeople = (): readonly PersonRow[] => [{ key: 0, name: '', role: 'supervisor', licence: '' }];

interface RowsProps<R> {
  readonly rows: readonly R[];
  readonly onChange: (rows: readonly R[]) => void;
}

const nextKey = (rows: readonly { readonly key: number }[]): number => Math.max(-1, ...rows.map((row) => row.key)) + 1;

function edit<R extends { readonly key: number }>(
  { rows, onChange }: RowsProps<R>,
  key: number,
  patch: Partial<R>,
): void {
  onChange(rows.map((row) => (row.key === key ? { ...row, ...patch } : row)));
}

export function SectionRows(props: RowsProps<SectionRow>) {
  const { rows, onChange } = props;
  const ranks = sectionRanks.map((id) => ({ id, label: say(`parts.rank.${id}`) }));
  return (
    <Part title={say('desk.start.sections')}>
      <p className="soft">{say('desk.start.sections-lead')}</p>
      {rows.map((row) => (
        <div key={row.key} className="row end form-line">
          <SectionHatch rank={row.rank} />
          <Field
            label={say('desk.section.name')}
            value={row.name}
            onChange={(name) => edit(props, row.key, { name })}
            maxLength={80}
          />
          <Pick
            label={say('desk.section.rank')}
            options={ranks}
            value={row.rank}
            onChange={(rank) => edit(props, row.key, { rank })}
          />
          <Field
            label={say('desk.section.kennels')}
            value={row.kennels}
            onChange={(kennels) => edit(props, row.key, { kennels })}
          />
          <Act
            label={say('desk.start.leave-out', { name: row.name })}
            onAct={() => onChange(rows.filter((one) => one.key !== row.key))}
          >
            {say('parts.leave-out')}
          </Act>
        </div>
      ))}
      <div>
        <Act onAct={() => onChange([...rows, { key: nextKey(rows), name: '', rank: 'clean-kittens', kennels: '' }])}>
          {say('desk.start.add-section')}
        </Act>
      </div>
    </Part>
  );
}

export function PeopleRows(props: RowsProps<PersonRow>) {
  const { rows, onChange } = props;
  const roles = Role.options.map((id) => ({ id, label: say(`parts.role.${id}`), note: say(`parts.role-note.${id}`) }));
  return (
    <Part title={say('desk.start.people')}>
      <p className="soft">{say('desk.start.people-lead')}</p>
      {rows.map((row, index) => (
        <div key={row.key} className="row end form-line">
          <Field
            label={index === 0 ? say('desk.start.you') : say('desk.person.name')}
            value={row.name}
            onChange={(name) => edit(props, row.key, { name })}
            maxLength={120}
          />
          <Pick
            label={say('desk.person.role')}
            options={roles}
            value={row.role}
            onChange={(role) => edit(props, row.key, { role })}
          />
          {row.role === 'medical' ? (
            <Field
              label={say('desk.person.licence')}
              hint={say('desk.person.licence-hint')}
              value={row.licence}
              onChange={(licence) => edit(props, row.key, { licence })}
              maxLength={120}
            />
          ) : null}
          {index === 0 ? null : (
            <Act
              label={say('desk.start.leave-out', { name: row.name })}
              onAct={() => onChange(rows.filter((one) => one.key !== row.key))}
            >
              {say('parts.leave-out')}
            </Act>
          )}
        </div>
      ))}
      <div>
        <Act onAct={() => onChange([...rows, { key: nextKey(rows), name: '', role: 'volunteer', licence: '' }])}>
          {say('desk.start.add-person')}
        </Act>
      </div>
    </Part>
  );
}
