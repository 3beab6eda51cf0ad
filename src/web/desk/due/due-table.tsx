import type { CalendarDate } from '../../../core/calendar.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { whyOf } from '../../../core/protocol/due.js';
import { isHeldLong } from '../../../core/protocol/held-long.js';
import { flagsIn } from '../../../log/flags/flags.js';
import { looksAfter } from '../../../log/flags/hold-flags.js';
import { sourcesOf, stateOfDue, treatmentName } from '../../../told/due-words.js';
import { placeSaid } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { type Column, DataTable } from '../../parts/data-table.js';
import { AnimalLink } from '../../parts/links.js';
import { State } from '../../parts/state.js';
import { useShelter, useWorld } from '../../store/here.js';
import type { DueOfAnimal } from './due-list.js';

interface DueTableProps {
  readonly rows: readonly DueOfAnimal[];
  readonly caption: string;
  /** Leave the animal out: on its own page. */
  readonly withoutAnimal?: boolean;
  /** Say where the animal is: in a list that is not ordered by section. */
  readonly withSection?: boolean;
}

export function DueTable({ rows, caption, withoutAnimal = false, withSection = false }: DueTableProps) {
  const shelter = useShelter();
  const own: Column<DueOfAnimal>[] = [
    {
      id: 'treatment',
      label: say('desk.due.treatment'),
      names: withoutAnimal,
      cell: ({ item }) => treatmentName(item),
    },
    {
      id: 'state',
      label: say('desk.due.state'),
      cell: ({ item }) => (
        <>
          <StateOf item={item} />
          <LooksAfter item={item} />
        </>
      ),
    },
    { id: 'when', label: say('desk.due.when'), keepLine: true, cell: ({ item }) => <When item={item} /> },
    { id: 'why', label: say('desk.due.why'), cell: ({ item }) => <Why item={item} /> },
  ];
  const animal: Column<DueOfAnimal>[] = [
    {
      id: 'animal',
      label: say('desk.animal.animal'),
      names: true,
      cell: ({ animal: one }) => (
        <>
          <AnimalLink animal={one} />
          {withSection ? (
            <div className="soft small">{say(placeSaid(shelter, one.section, one.kennel))}</div>
          ) : one.kennel === '' ? null : (
            <div className="soft small">{say('desk.place.kennel-only', { kennel: one.kennel })}</div>
          )}
        </>
      ),
    },
  ];
  return (
    <DataTable
      caption={caption}
      columns={withoutAnimal ? own : [...animal, ...own]}
      rows={rows}
      keyOf={({ animal: one, item }) => `${one.id} ${item.schedule}`}
      {...(withoutAnimal ? {} : { groupOf: ({ animal: one }: DueOfAnimal) => one.id })}
    />
  );
}

function StateOf({ item }: { item: DueItem }) {
  const { tone, text } = stateOfDue(item);
  return <State tone={tone}>{text}</State>;
}

/** Who looks after what is on hold, or that nobody does after it has waited for long. */
function LooksAfter({ item }: { item: DueItem }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  if (item.status !== 'on-hold') return null;
  const isLong = isHeldLong(item, world.shelter.protocol, today);
  const owner = looksAfter(isLong && item.hold?.owner == null ? flagsIn(world, today) : [], item);
  // What has an end ends by itself, and has no flag.
  if (owner === null) {
    return isLong && item.hold?.until == null ? (
      <div className="small">{say('desk.due.looked-after-nobody')}</div>
    ) : null;
  }
  const { person, again } = owner;
  const values = { person: { person } } as const;
  return (
    <div className="soft small">
      {again === null
        ? say('desk.due.looked-after', values)
        : say('desk.due.looked-after-again', { ...values, date: { date: again } })}
    </div>
  );
}

/** The three days of an item, as ISO text in the figure face: short, and read the same everywhere. */
function When({ item }: { item: DueItem }) {
  const days: readonly (readonly [string, CalendarDate | null])[] = [
    [say('desk.due.earliest'), item.earliest],
    [say('desk.due.due'), item.due],
    [say('desk.due.overdue-after'), item.overdueAfter],
  ];
  return (
    <dl className="days small">
      {days.map(([word, day]) =>
        day === null ? null : (
          <div key={word}>
            <dt>{word}</dt>
            <dd className="mono">{day}</dd>
          </div>
        ),
      )}
    </dl>
  );
}

/** The sentence, the titles of its sources, and on request every step of the reckoning. */
export function Why({ item }: { item: DueItem }) {
  const shelter = useShelter();
  const sources = sourcesOf(shelter, item.sources);
  const title = (id: string | null): string => sourcesOf(shelter, id === null ? [] : [id])[0]?.title ?? '';
  return (
    <>
      {say(whyOf(item))}
      {sources.length === 0 ? null : (
        <div className="soft small paper-off">
          {say('desk.due.sources', { titles: sources.map((source) => source.title).join('; ') })}
        </div>
      )}
      {item.trace.length === 0 ? null : (
        <details className="small no-print">
          <summary>{say('desk.due.trace')}</summary>
          <ol className="plain">
            {item.trace.map((step) => (
              <li key={`${step.rule} ${step.date} ${step.value}`}>
                <span className="mono">{step.date ?? ''}</span>{' '}
                {step.words === undefined ? step.value : say(step.words)}
                {title(step.source) === '' ? '' : ` (${title(step.source)})`}
                {step.bound ? <b>{` ${say('desk.due.decides')}`}</b> : null}
              </li>
            ))}
          </ol>
        </details>
      )}
    </>
  );
}
