import { useEffect, useMemo, useState } from 'react';
import { lampCode } from '../../../core/animal/lamp.js';
import { dayOfInstant } from '../../../core/calendar.js';
import { RoundId, type ScheduleId } from '../../../core/ids.js';
import { type LineNow, lineNow } from '../../../log/bedside/line-now.js';
import { seenThatKeepsApart } from '../../../log/views/apart/keep-apart.js';
import { apartFlags } from '../../../log/views/apart/open-things.js';
import { orderOfSchedule } from '../../../log/views/doses/ordered.js';
import { weighingForDose } from '../../../log/views/doses/weight-for-dose.js';
import { scheduleNamed } from '../../../log/views/due/schedules.js';
import { orderOf } from '../../../log/views/plan/ask.js';
import { codeOfLine, numberedLines } from '../../../log/views/plan/line-code.js';
import { type DrawUp, drawUpsFor, wantedOfRound } from '../../../log/views/round/draw-ups.js';
import {
  type AnimalStop,
  type RoundLine,
  type RoundView,
  roundView,
  type SectionStop,
} from '../../../log/views/round/round.js';
import { itemText } from '../../../told/item-text.js';
import { marksLine, nameOf } from '../../../told/names.js';
import { writtenText } from '../../../told/written-text.js';
import { personName, say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { AbsentAnimals } from '../../parts/absent-animals.js';
import { Act } from '../../parts/act.js';
import { ChipTrust } from '../../parts/fields/chip-trust.js';
import { GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { amountText, limitText, productText, whereText } from './amount.js';
import { LineBars } from './line-bars.js';
import { lineStateText } from './line-state.js';
import { keyInPath } from './paths.js';
import './sheet.css';

/**
 * The treatment sheet: the round on paper, in its order, for a day without devices. Each section begins a page and is a
 * table of its own, whose head stands on every page; an animal is never parted.
 */
export function TreatmentSheet({ params }: { params: { id: string } }) {
  const world = useWorld();
  const [at] = useState(now);
  const id = RoundId.safeParse(decodeURIComponent(params.id));
  const view = id.success ? roundView(world, id.data) : null;
  usePageNumbers();
  const drawUps = useMemo(
    () =>
      view === null
        ? new Map<string, DrawUp>()
        : new Map(
            drawUpsFor(world, wantedOfRound(world, view.facts.id), at, view.facts.id).map((one) => [one.key, one]),
          ),
    [world, view, at],
  );
  if (view === null) return <Page title={say('desk.round.unknown')}>{null}</Page>;
  return (
    <Page
      title={say('ribbon.sheet.title')}
      beside={say('ribbon.sheet.beside', { on: { date: view.facts.plan.on } })}
      lead={say('ribbon.sheet.lead')}
      acts={
        <>
          <GoButton to={keyInPath}>{say('ribbon.key-in.title')}</GoButton>
          <Act main onAct={() => window.print()}>
            {say('parts.print')}
          </Act>
        </>
      }
    >
      <AbsentAnimals animals={view.facts.plan.lines.map(({ animal }) => animal)} />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for form fields, this frame holds tables */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: scrollable region (WCAG 2.1.1), axe scrollable-region-focusable */}
      <div className="treatment-sheet" role="group" aria-label={say('ribbon.sheet.title')} tabIndex={0}>
        {view.stops
          .filter((stop) => stop.animals.length > 0)
          .map((stop) => (
            <SectionSheet key={stop.section.id} view={view} stop={stop} drawUps={drawUps} at={at} />
          ))}
      </div>
    </Page>
  );
}

/** "Page n of m" on every page, in the words of the catalogue. */
function usePageNumbers(): void {
  useEffect(() => {
    const [before = '', between = '', after = ''] = say('ribbon.sheet.page', { page: '|', pages: '|' }).split('|');
    const style = document.createElement('style');
    const text = (part: string): string => JSON.stringify(part);
    style.textContent = `@media print { @page treatment { size: landscape; margin: 10mm 10mm 12mm; @bottom-right { content: ${text(before)} counter(page) ${text(between)} counter(pages) ${text(after)}; font: 9pt sans-serif } } }`;
    document.head.append(style);
    return () => style.remove();
  }, []);
}

const columns = ['animal', 'what', 'amount', 'code', 'time', 'given', 'lot', 'not-given', 'initials'] as const;
const afterTheName = columns.length - columns.indexOf('amount');
const beforeTheReason = columns.indexOf('not-given') - columns.indexOf('time');

interface SectionSheetProps {
  readonly view: RoundView;
  readonly stop: SectionStop;
  readonly drawUps: ReadonlyMap<string, DrawUp>;
  /** When the sheet was made: what is recorded afterwards does not stand on it. */
  readonly at: string;
}

function SectionSheet({ view, stop, drawUps, at }: SectionSheetProps) {
  const world = useWorld();
  const { shelter } = world;
  const { facts } = view;
  const today = dayOfInstant(at, shelter.zone);
  const team = {
    treater: personName(facts.treater),
    holder: facts.holder === null ? say('desk.nobody') : personName(facts.holder),
  };
  const codes = useMemo(
    () => new Map(numberedLines(facts).map((line) => [`${line.animal} ${line.schedule}`, line.number])),
    [facts],
  );
  return (
    <table className="sheet-section" aria-label={stop.section.name}>
      <thead>
        <tr>
          <th colSpan={columns.length} scope="colgroup" className="sheet-head">
            {say('ribbon.sheet.head', { on: { date: facts.plan.on }, section: stop.section.name, ...team })}
            {shelter.demo ? ` · ${say('parts.demo')}` : ''}
            {stop.section.wear.length === 0 ? '' : ` · ${stop.section.wear.map(itemText).join(', ')}`}
            {` · ${say('ribbon.sheet.made', { at: { instant: at } })}`}
          </th>
        </tr>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {say(`ribbon.sheet.${column}`)}
            </th>
          ))}
        </tr>
      </thead>
      {inOrder(view, stop).map((one) => (
        <tbody key={one.animal.id} className="sheet-animal">
          {one.lines.map((line, i) => {
            const number = codes.get(`${line.animal} ${line.schedule}`);
            return (
              <tr key={line.schedule}>
                {i > 0 ? null : (
                  <th scope="rowgroup" rowSpan={one.lines.length + (one.animal.notes === '' ? 0 : 1)}>
                    <AnimalCell stop={one} />
                  </th>
                )}
                <td>
                  {line.name}
                  <WrittenFor stop={one} schedule={line.schedule} />
                </td>
                <LineCells
                  line={line}
                  now={lineNow(world, facts, one, line, at, today)}
                  drawUp={drawUps.get(`${line.animal} ${line.schedule}`)}
                  code={number === undefined ? null : codeOfLine(facts.id, number)}
                />
              </tr>
            );
          })}
          {one.animal.notes === '' ? null : (
            <tr>
              <td colSpan={columns.length - 1} className="small">
                {one.animal.notes}
              </td>
            </tr>
          )}
        </tbody>
      ))}
    </table>
  );
}

/** An order that somebody else wrote down in the veterinarian's name says so on paper too. */
function WrittenFor({ stop, schedule }: { stop: AnimalStop; schedule: ScheduleId }) {
  const order = orderOfSchedule(stop.animal, schedule)?.order;
  return order?.written === undefined ? null : <div className="small">{writtenText(order)}</div>;
}

interface LineCellsProps {
  readonly line: RoundLine;
  readonly now: LineNow;
  readonly drawUp: DrawUp | undefined;
  readonly code: string | null;
}

/** The amount and what is written by hand; of a line that is not to be done, that and why. */
function LineCells({ line, now, drawUp, code }: LineCellsProps) {
  const state = lineStateText(now);
  const shown = state === null ? null : <State tone={state.tone}>{state.text}</State>;
  const bars = <td>{code === null ? null : <LineBars code={code} />}</td>;
  if (now.is === 'to-do' || now.is === 'under-way') {
    return (
      <>
        <td>
          {drawUp === undefined ? null : <AmountCell drawUp={drawUp} />}
          {drawUp === undefined && now.is === 'to-do' && line.action === 'give' ? say('ribbon.sheet.no-amount') : null}
          {shown}
        </td>
        {bars}
        <ToFillIn line={line} />
      </>
    );
  }
  if (now.is !== 'wait' && now.is !== 'chip-read') return <td colSpan={afterTheName}>{shown}</td>;
  // The code stays, so that why it was left can be keyed in.
  return (
    <>
      <td>{shown}</td>
      {bars}
      <td colSpan={beforeTheReason} />
      <td className="blank why" />
      <td className="blank" />
    </>
  );
}

/** How much of what, and where it goes: the paper has to do without the label and the card. */
function AmountCell({ drawUp }: { drawUp: DrawUp }) {
  const { gates, stopped } = drawUp.dose;
  const why = stopped ? gates.filter(({ severity }) => severity === 'stop').map(({ code }) => say(`gate.${code}`)) : [];
  const more = [...why, productText(drawUp), whereText(drawUp), limitText(drawUp)].filter((part) => part !== '');
  return (
    <>
      <b className="mono">{amountText(drawUp)}</b>
      {more.map((part) => (
        <div key={part} className="small">
          {part}
        </div>
      ))}
    </>
  );
}

/** What is written by hand: a test asks for its times, lots and zones, a chip for its scans. */
function ToFillIn({ line: { action, schedule } }: { line: RoundLine }) {
  const { shelter } = useWorld();
  const wanted: readonly string[] = scheduleNamed(shelter, schedule)?.satisfiedBy ?? [];
  const kit = shelter.formulary?.kits.find((one) => one.tests.some((test) => wanted.includes(test)));
  const test = action === 'test';
  const lamp = wanted.includes(lampCode);
  return (
    <>
      <td className="blank">{test ? <Ask>{say('ribbon.sheet.test-times')}</Ask> : null}</td>
      <td className="blank wide">
        {test
          ? kit?.zones.map((zone) => <Ask key={zone.id}>{say('ribbon.sheet.test-zone', { zone: zone.name })}</Ask>)
          : null}
        {lamp ? <Ask>{say('ribbon.sheet.lamp')}</Ask> : null}
        {action === 'chip' ? (
          <>
            <Ask>{say('ribbon.sheet.chip-before')}</Ask>
            <Ask>{say('ribbon.sheet.chip-after')}</Ask>
          </>
        ) : null}
      </td>
      <td className="blank lot">
        {test ? <Ask>{say('ribbon.sheet.test-lots')}</Ask> : null}
        {action === 'chip' ? <Ask>{say('ribbon.sheet.chip-number')}</Ask> : null}
      </td>
      <td className="blank why" />
      <td className="blank" />
    </>
  );
}

const Ask = ({ children }: { children: string }) => <div className="ask">{children}</div>;

function AnimalCell({ stop: { animal } }: { stop: AnimalStop }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const apart = [
    ...apartFlags(world, animal, today).map((flag) => say(`flag-name.${flag.code}`)),
    ...seenThatKeepsApart(animal, world.ground, today).map(({ words }) => words),
  ];
  const weighing = weighingForDose(animal);
  return (
    <>
      <b>{nameOf(animal)}</b>{' '}
      <span className="small">
        {animal.name === '' || animal.label === '' ? '' : `${say('ribbon.sheet.number', { label: animal.label })} · `}
        {animal.kennel}
      </span>
      <div className="small">{marksLine(animal)}</div>
      {animal.chip === null ? null : <div className="mono small">{animal.chip.code}</div>}
      <ChipTrust animal={animal} />
      {apart.length === 0 ? null : (
        <div className="small">
          <State tone="stop">
            {say('ribbon.sheet.apart', {
              what: { list: [...new Set(apart)] },
            })}
          </State>
        </div>
      )}
      {weighing === null ? null : (
        <div className="small">
          {say(weighing.doubtful ? 'ribbon.sheet.weight-doubtful' : 'ribbon.sheet.weight', {
            weight: { grams: weighing.grams },
            on: { date: weighing.on },
          })}
        </div>
      )}
    </>
  );
}

/** Where the answer is one of a few, they are printed to be ticked. */
/** In the order of the plan; without one, as the animals are met. */
function inOrder(view: RoundView, stop: SectionStop): readonly AnimalStop[] {
  const { ribbon } = view.facts.plan;
  if (ribbon === undefined) return stop.animals;
  const place = new Map(orderOf(ribbon).map((animal, i) => [animal, i]));
  const at = (one: AnimalStop): number => place.get(one.animal.id) ?? place.size;
  return [...stop.animals].sort((a, b) => at(a) - at(b));
}
