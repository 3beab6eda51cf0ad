import { useMemo, useState } from 'react';
import { type DaySheet, daySheet, type OfAnimal, type Stop } from '../../../papers/day-sheet/day-sheet.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { GoButton } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { keyInPath } from '../sheet/paths.js';
import { SheetTables, usePageNumbers } from '../sheet/sheet-tables.js';

/** The sheet for the day everything dies: printed each morning, worked from without any device, keyed in afterwards. */
export function DaySheetPage() {
  const world = useWorld();
  const [at] = useState(now);
  usePageNumbers();
  const sheet = useMemo(() => daySheet(world, at), [world, at]);
  return (
    <Page
      wide
      title={say('day-sheet.title', { on: { date: sheet.on } })}
      beside={[say('ribbon.sheet.made', { at: { instant: sheet.made } }), world.shelter.demo ? say('parts.demo') : '']
        .filter((part) => part !== '')
        .join(' · ')}
      lead={say('day-sheet.lead')}
      acts={
        <>
          <GoButton to={keyInPath}>{say('ribbon.key-in.title')}</GoButton>
          <Act main onAct={() => window.print()}>
            {say('parts.print')}
          </Act>
        </>
      }
    >
      {sheet.unplanned.length === 0 ? null : (
        <div className="stack no-print">
          <Notice tone="attention">{say('day-sheet.unplanned-note', { count: sheet.unplanned.length })}</Notice>
          <div className="row">
            <GoButton to="/rounds/prepare" main>
              {say('desk.today.prepare')}
            </GoButton>
          </div>
        </div>
      )}
      <Part title={say('day-sheet.stops')}>
        {sheet.stops.length === 0 ? <p>{say('day-sheet.no-stops')}</p> : <Stops stops={sheet.stops} />}
      </Part>
      {sheet.waits.length === 0 ? null : (
        <Part title={say('day-sheet.waiting')}>
          <Waits rows={sheet.waits} />
        </Part>
      )}
      {sheet.unplanned.length === 0 ? null : (
        <Part title={say('day-sheet.unplanned')}>
          <p className="small">{say('day-sheet.unplanned-lead')}</p>
          <Unplanned rows={sheet.unplanned} />
        </Part>
      )}
      {sheet.sheets.length === 0 ? (
        <p>{say('day-sheet.no-rounds')}</p>
      ) : (
        sheet.sheets.map(({ round, sheet: one }) => <SheetTables key={round} sheet={one} />)
      )}
    </Page>
  );
}

const Stops = ({ stops }: { stops: readonly Stop[] }) => (
  <DataTable
    caption={say('day-sheet.stops')}
    rows={stops}
    keyOf={({ key }) => key}
    columns={[
      { id: 'who', label: say('desk.animal.animal'), names: true, cell: ({ who }) => who },
      { id: 'why', label: say('desk.due.why'), cell: ({ why }) => why },
    ]}
  />
);

const What = ({ what }: Pick<OfAnimal, 'what'>) => (
  <ul className="plain">
    {what.map((one) => (
      <li key={one}>{one}</li>
    ))}
  </ul>
);

const Who = ({ name, place }: Pick<OfAnimal, 'name' | 'place'>) => (
  <>
    <b>{name}</b>
    <div className="small">{place}</div>
  </>
);

const Waits = ({ rows }: { rows: readonly OfAnimal[] }) => (
  <DataTable
    caption={say('day-sheet.waiting')}
    rows={rows}
    keyOf={({ id }) => id}
    columns={[
      { id: 'who', label: say('desk.animal.animal'), names: true, cell: Who },
      { id: 'what', label: say('desk.due.treatment'), cell: What },
    ]}
  />
);

const blanks = ['time', 'given', 'lot', 'not-given', 'initials'] as const;

/** A line for each, to write on: what was done, when, from which lot, by whom. */
function Unplanned({ rows }: { rows: DaySheet['unplanned'] }) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for form fields, this frame holds a table
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrollable region (WCAG 2.1.1), axe scrollable-region-focusable
    <div className="treatment-sheet" role="group" aria-label={say('day-sheet.unplanned')} tabIndex={0}>
      <table className="sheet-section" aria-label={say('day-sheet.unplanned')}>
        <thead>
          <tr>
            {(['animal', 'what', 'amount', ...blanks] as const).map((column) => (
              <th key={column} scope="col">
                {say(`ribbon.sheet.${column}`)}
              </th>
            ))}
          </tr>
        </thead>
        {rows.map(({ id, name, place, lines }) => (
          <tbody key={id} className="sheet-animal">
            {lines.map(({ what, amount, more }, at) => (
              <tr key={what}>
                {at > 0 ? null : (
                  <th scope="rowgroup" rowSpan={lines.length}>
                    <Who name={name} place={place} />
                  </th>
                )}
                <td>{what}</td>
                <td>
                  <b className="mono">{amount}</b>
                  {more === '' ? null : <div className="small">{more}</div>}
                </td>
                {blanks.map((column) => (
                  <td key={column} className={column === 'given' ? 'blank wide' : 'blank'} />
                ))}
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </div>
  );
}
