import { Link } from 'wouter';
import type { DrawUp } from '../../../log/prepare/draw-ups.js';
import { type CartRow, cartSheet } from '../../../papers/draw-up/cart-sheet.js';
import { labelSizes } from '../../../papers/draw-up/label.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { GoButton } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { Notice, State } from '../../parts/state.js';
import { cardPath, labelsPath } from './links.js';
import '../../style/draw-up.css';

/** The sheet for the cart, on the screen and for the printer. */
export function BatchSheet({ from, drawUps, at }: { from: string; drawUps: readonly DrawUp[]; at: string }) {
  const { ready, stopped, sections } = cartSheet(drawUps);
  return (
    <Page
      title={say('drawup.sheet.title')}
      beside={say('drawup.worked-out', { at: { instant: at } })}
      lead={say('drawup.sheet.lead', { ready, stopped })}
      acts={
        <>
          {ready === 0
            ? null
            : labelSizes.map((size) => (
                <GoButton key={size} to={labelsPath(from, size)}>
                  {say('drawup.sheet.labels', { size: say(`drawup.label.size.${size}`), count: ready })}
                </GoButton>
              ))}
          <Act main onAct={() => window.print()}>
            {say('parts.print')}
          </Act>
        </>
      }
    >
      <Notice tone="attention">{say('drawup.sheet.one-at-a-time')}</Notice>
      {drawUps.length === 0 ? <p>{say('drawup.sheet.nothing')}</p> : null}
      {sections.map(({ name, rows }) => (
        <Part key={name} title={name === '' ? say('drawup.sheet.no-section') : name}>
          <DataTable
            caption={name}
            rows={rows}
            keyOf={(row) => row.key}
            columns={[
              {
                id: 'tick',
                label: say('drawup.sheet.drawn'),
                cell: () => <span className="box" aria-hidden="true" />,
              },
              {
                id: 'animal',
                label: say('drawup.sheet.animal'),
                names: true,
                cell: (row) => (
                  <>
                    <Link href={cardPath(from, row.key)}>{row.name}</Link>
                    <span className="soft small">{` ${row.kennel}`}</span>
                  </>
                ),
              },
              { id: 'product', label: say('drawup.sheet.product'), cell: (row) => <Product row={row} /> },
              { id: 'volume', label: say('drawup.sheet.volume'), num: true, keepLine: true, cell: volumeCell },
              { id: 'mark', label: say('drawup.sheet.mark'), cell: (row) => <Mark row={row} /> },
              { id: 'drug', label: say('drawup.sheet.drug'), num: true, keepLine: true, cell: (row) => row.drug },
              { id: 'where', label: say('drawup.sheet.where'), cell: (row) => row.where },
              { id: 'lot', label: say('drawup.sheet.lot'), cell: (row) => row.lot },
            ]}
          />
        </Part>
      ))}
      <p className="small">{say('drawup.veterinarian')}</p>
    </Page>
  );
}

const Product = ({ row: { product, course } }: { row: CartRow }) => (
  <>
    {product}
    {course === '' ? null : <b>{` ${course}`}</b>}
  </>
);

const volumeCell = ({ volume: { tone, text } }: CartRow) => (tone === null ? text : <State tone={tone}>{text}</State>);

const Mark = ({ row: { mark } }: { row: CartRow }) => (
  <>
    {mark.map(({ text, strong }) => (strong ? <b key={text}>{`${text} `}</b> : <span key={text}>{`${text} `}</span>))}
  </>
);
