import type { Preparation, PreparedAnimal } from '../../../log/prepare/prepare.js';
import { toneOfDue, treatmentName } from '../../../told/due-words.js';
import { itemText } from '../../../told/item-text.js';
import { marksLine } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';
import { AnimalLink } from '../../parts/links.js';
import { SectionStrip } from '../../parts/section-hatch.js';
import { State } from '../../parts/state.js';

/** Who is treated on the round, and who stands in the list because something waits; the plan counts the first. */
function countsOf(animals: readonly PreparedAnimal[], weigh: ReadonlySet<string>) {
  const count = animals.filter(({ animal, due }) => due.length > 0 || weigh.has(animal.id)).length;
  return { count, waiting: animals.length - count };
}

/** Section by section from clean to sick, animal by animal in the order in which they are met. */
export function OrderOfRound({ plan }: { plan: Preparation }) {
  const stops = plan.sections.filter(({ animals }) => animals.length > 0);
  if (stops.length === 0) return <p>{say('desk.prepare.nothing-due')}</p>;
  const weigh = new Set<string>(plan.weighFirst);
  return (
    <div className="stack">
      {stops.map(({ section, animals }) => (
        <div key={section.id} className="stack tight">
          <SectionStrip rank={section.rank} name={section.name}>
            {[...section.wear.map((item) => itemText(item)), say('desk.order.animals', countsOf(animals, weigh))].join(
              ' · ',
            )}
          </SectionStrip>
          <DataTable
            caption={say('desk.order.in', { section: section.name })}
            rows={animals}
            keyOf={({ animal }) => animal.id}
            columns={[
              { id: 'kennel', label: say('desk.animal.kennel'), keepLine: true, cell: ({ animal }) => animal.kennel },
              {
                id: 'animal',
                label: say('desk.animal.animal'),
                names: true,
                cell: ({ animal }) => <AnimalLink animal={animal} />,
              },
              {
                id: 'marks',
                label: say('desk.animal.marks'),
                cell: ({ animal }) => <span className="small">{marksLine(animal)}</span>,
              },
              {
                id: 'due',
                label: say('desk.order.do'),
                cell: (row) => <Things row={row} weigh={weigh.has(row.animal.id)} />,
              },
              {
                id: 'waiting',
                label: say('desk.order.waits'),
                cell: ({ waiting }) => (
                  <ul className="plain small">
                    {waiting.map((item) => (
                      <li key={item.schedule}>
                        <b>{item.scheduleName}:</b> {item.hold === null ? say(item.because) : say(item.hold.why)}
                      </li>
                    ))}
                  </ul>
                ),
              },
            ]}
          />
        </div>
      ))}
    </div>
  );
}

function Things({ row, weigh }: { row: PreparedAnimal; weigh: boolean }) {
  return (
    <ul className="plain">
      {weigh ? (
        <li>
          <State tone="attention">{say('desk.order.weigh-first')}</State>
        </li>
      ) : null}
      {row.due.map((item) => (
        <li key={item.schedule}>
          <State tone={item.status === 'overdue' ? toneOfDue.overdue : 'plain'}>
            {treatmentName(item)}
            {item.status === 'overdue' ? `, ${say('desk.due.status.overdue')}` : ''}
          </State>
        </li>
      ))}
    </ul>
  );
}
