import { useState } from 'react';
import { type PersonId, RoundId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import type { Option } from '../parts/fields/choices.js';
import { Pick } from '../parts/fields/pick.js';
import { newId } from '../store/here.js';
import type { Team } from './lay-down.js';
import { teamName } from './picture.js';

interface People {
  readonly round: RoundId;
  readonly treater: PersonId | null;
  /** Null while nobody has said. */
  readonly holder: PersonId | 'alone' | null;
}

export interface OtherTeamsState {
  readonly people: readonly People[];
  readonly set: (at: number, by: Partial<People>) => void;
  /** Null while somebody is missing. */
  readonly teams: readonly Team[] | null;
}

const most = 6;

/** Who works in the teams after the first. */
export function useOtherTeams(count: number): OtherTeamsState {
  const [all, setAll] = useState<readonly People[]>(() =>
    Array.from({ length: most }, () => ({ round: RoundId.parse(newId()), treater: null, holder: null })),
  );
  const people = all.slice(0, Math.max(0, count));
  const teams = people.flatMap(({ round, treater, holder }): Team[] =>
    treater === null || holder === null ? [] : [{ round, treater, holder: holder === 'alone' ? null : holder }],
  );
  return {
    people,
    set: (at, by) => setAll((before) => before.map((one, i) => (i === at ? { ...one, ...by } : one))),
    teams: teams.length === people.length ? teams : null,
  };
}

export function OtherTeams({ state, options }: { state: OtherTeamsState; options: readonly Option<PersonId>[] }) {
  return state.people.map((one, at) => (
    <div key={one.round} className="stack tight">
      <h2>{teamName(at + 1)}</h2>
      <Pick
        label={say('desk.round.treater')}
        options={options}
        value={one.treater}
        onChange={(treater) => state.set(at, { treater })}
      />
      <Pick<PersonId | 'alone'>
        label={say('desk.round.holder')}
        options={[
          { id: 'alone' as const, label: say('parts.who.alone') },
          ...options.filter((o) => o.id !== one.treater),
        ]}
        value={one.holder}
        onChange={(holder) => state.set(at, { holder })}
      />
    </div>
  ));
}
