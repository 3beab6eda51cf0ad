import { useEffect } from 'react';
import type { AnimalBlock } from '../../../papers/sheet/animal-block.js';
import type { Amount, SheetLine } from '../../../papers/sheet/sheet-line.js';
import {
  type SheetAnimal,
  type SheetSection,
  sheetColumns,
  type TreatmentSheet,
} from '../../../papers/sheet/treatment-sheet.js';
import { say } from '../../../words/say.js';
import { AbsentAnimals } from '../../parts/absent-animals.js';
import { State } from '../../parts/state.js';
import { LineBars } from './line-bars.js';
import './sheet.css';

/** The tables of a treatment sheet, with those of its animals that are not on this device. */
export function SheetTables({ sheet }: { sheet: TreatmentSheet }) {
  return (
    <>
      <AbsentAnimals animals={sheet.planned} />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for form fields, this frame holds tables */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: scrollable region (WCAG 2.1.1), axe scrollable-region-focusable */}
      <div className="treatment-sheet" role="group" aria-label={say('ribbon.sheet.title')} tabIndex={0}>
        {sheet.sections.map((section) => (
          <SectionTable key={section.id} section={section} />
        ))}
      </div>
    </>
  );
}

/** "Page n of m" on every page, in the words of the catalogue. */
export function usePageNumbers(): void {
  useEffect(() => {
    const [before = '', between = '', after = ''] = say('ribbon.sheet.page', { page: '|', pages: '|' }).split('|');
    const style = document.createElement('style');
    const text = (part: string): string => JSON.stringify(part);
    style.textContent = `@media print { @page treatment { size: landscape; margin: 10mm 10mm 12mm; @bottom-right { content: ${text(before)} counter(page) ${text(between)} counter(pages) ${text(after)}; font: 9pt sans-serif } } }`;
    document.head.append(style);
    return () => style.remove();
  }, []);
}

const afterTheName = sheetColumns.length - sheetColumns.indexOf('amount');
const beforeTheReason = sheetColumns.indexOf('not-given') - sheetColumns.indexOf('time');

function SectionTable({ section }: { section: SheetSection }) {
  return (
    <table className="sheet-section" aria-label={section.name}>
      <thead>
        <tr>
          <th colSpan={sheetColumns.length} scope="colgroup" className="sheet-head">
            {section.head}
          </th>
        </tr>
        <tr>
          {sheetColumns.map((column) => (
            <th key={column} scope="col">
              {say(`ribbon.sheet.${column}`)}
            </th>
          ))}
        </tr>
      </thead>
      {section.animals.map((animal) => (
        <AnimalRows key={animal.id} animal={animal} />
      ))}
    </table>
  );
}

function AnimalRows({ animal: { who, lines, notes } }: { animal: SheetAnimal }) {
  return (
    <tbody className="sheet-animal">
      {lines.map((line, i) => (
        <tr key={line.key}>
          {i > 0 ? null : (
            <th scope="rowgroup" rowSpan={lines.length + (notes === '' ? 0 : 1)}>
              <Who who={who} />
            </th>
          )}
          <td>
            {line.what}
            {line.written === '' ? null : <div className="small">{line.written}</div>}
          </td>
          <LineCells line={line} />
        </tr>
      ))}
      {notes === '' ? null : (
        <tr>
          <td colSpan={sheetColumns.length - 1} className="small">
            {notes}
          </td>
        </tr>
      )}
    </tbody>
  );
}

function LineCells({ line: { cells, state, code } }: { line: SheetLine }) {
  const shown = state === null ? null : <State tone={state.tone}>{state.text}</State>;
  if (cells.is === 'closed') return <td colSpan={afterTheName}>{shown}</td>;
  return (
    <>
      <td>
        {cells.is === 'fill-in' && cells.amount !== null ? <AmountCell amount={cells.amount} /> : null}
        {shown}
      </td>
      <td>{code === null ? null : <LineBars code={code} />}</td>
      {cells.is === 'fill-in' ? (
        <>
          <Blank asks={cells.asks.time} />
          <Blank asks={cells.asks.given} also="wide" />
          <Blank asks={cells.asks.lot} also="lot" />
        </>
      ) : (
        <td colSpan={beforeTheReason} />
      )}
      <td className="blank why" />
      <td className="blank" />
    </>
  );
}

function AmountCell({ amount: { known, text, more } }: { amount: Amount }) {
  if (!known) return <>{text}</>;
  return (
    <>
      <b className="mono">{text}</b>
      {more.map((part) => (
        <div key={part} className="small">
          {part}
        </div>
      ))}
    </>
  );
}

/** A cell to write into, with what is asked for in it. */
function Blank({ asks, also = '' }: { asks: readonly string[]; also?: 'wide' | 'lot' | '' }) {
  return (
    <td className={also === '' ? 'blank' : `blank ${also}`}>
      {asks.map((ask) => (
        <div key={ask} className="ask">
          {ask}
        </div>
      ))}
    </td>
  );
}

function Who({ who: { name, where, marks, chip, distrust, apart, weight } }: { who: AnimalBlock }) {
  return (
    <>
      <b>{name}</b> <span className="small">{where}</span>
      <div className="small">{marks}</div>
      {chip === null ? null : <div className="mono small">{chip}</div>}
      {distrust === null ? null : <Stop>{distrust}</Stop>}
      {apart === null ? null : <Stop>{apart}</Stop>}
      {weight === null ? null : <div className="small">{weight}</div>}
    </>
  );
}

const Stop = ({ children }: { children: string }) => (
  <div className="small">
    <State tone="stop">{children}</State>
  </div>
);
