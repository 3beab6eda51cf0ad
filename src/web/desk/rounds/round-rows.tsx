import { Link } from 'wouter';
import type { RoundView } from '../../../log/views/round/round.js';
import { sectionOf } from '../../../log/views/shelter.js';
import type { Tone } from '../../../told/tone.js';
import { personName, say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';
import { State } from '../../parts/state.js';
import { useShelter, useWorld } from '../../store/here.js';

const tones: Readonly<Record<RoundView['state'], Tone>> = {
  planned: 'plain',
  running: 'running',
  'handed-back': 'attention',
  accepted: 'done',
};

export const RoundState = ({ state }: { state: RoundView['state'] }) => (
  <State tone={tones[state]}>{say(`desk.round.state.${state}`)}</State>
);

type Counts = Pick<RoundView['counts'], 'done' | 'notDone' | 'abnormal'> & { readonly open: number | string };

export function RoundRows({ rounds, empty }: { rounds: readonly RoundView[]; empty: string }) {
  const shelter = useShelter();
  const { animals } = useWorld();
  /** As they were handed back, where animals of the round have left and are not on this device. */
  const countsOf = ({ facts, counts }: RoundView): Counts => {
    const all = facts.plan.lines.every(({ animal }) => animals.has(animal));
    return all || facts.handedBack === null ? counts : { ...facts.handedBack, open: '–' };
  };
  const names = (view: RoundView): string =>
    view.facts.plan.sections.map((id) => sectionOf(shelter, id)?.name ?? id).join(', ');
  return (
    <DataTable
      caption={say('desk.today.rounds')}
      rows={rounds}
      keyOf={(view) => view.facts.id}
      empty={empty}
      columns={[
        {
          id: 'round',
          label: say('desk.round.round'),
          names: true,
          cell: (view) => <Link href={`/rounds/${encodeURIComponent(view.facts.id)}`}>{names(view)}</Link>,
        },
        {
          id: 'on',
          label: say('desk.round.on'),
          keepLine: true,
          cell: (view) => <span className="mono small">{view.facts.plan.on}</span>,
        },
        {
          id: 'team',
          label: say('desk.round.team'),
          cell: (view) =>
            [view.facts.treater, view.facts.holder]
              .filter((id) => id !== null)
              .map((id) => personName(id))
              .join(', '),
        },
        { id: 'state', label: say('desk.due.state'), cell: (view) => <RoundState state={view.state} /> },
        { id: 'done', label: say('desk.round.done'), num: true, cell: (view) => countsOf(view).done },
        { id: 'not', label: say('desk.round.not-done'), num: true, cell: (view) => countsOf(view).notDone },
        { id: 'open', label: say('desk.round.open'), num: true, cell: (view) => countsOf(view).open },
        { id: 'abnormal', label: say('desk.round.abnormal'), num: true, cell: (view) => countsOf(view).abnormal },
      ]}
    />
  );
}
