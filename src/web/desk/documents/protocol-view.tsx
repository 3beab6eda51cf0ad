import { createContext, type ReactNode, useContext } from 'react';
import {
  codesOf,
  type ProtocolDocument,
  type Schedule,
  type Series,
  type Target,
} from '../../../core/protocol/document/document.js';
import { say } from '../../../words/say.js';
import { Part } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import {
  conditionWords,
  countersignLines,
  doseWords,
  heldLongLines,
  keepApartLines,
  nameIn,
  scheduleLines,
  seriesStart,
  targetLines,
  weightLines,
} from './protocol-lines.js';
import './documents.css';
import { SourcedLines, SourceList, SourceTitle } from './sourced.js';
import { Variants } from './variants.js';

/** A protocol to be read from end to end: every schedule with its values and their sources. */
export function ProtocolView({ protocol, inForce }: { protocol: ProtocolDocument; inForce: boolean }) {
  const tools = useContext(FrameTools);
  return (
    <>
      <Contents protocol={protocol} />
      <p>
        {say(`desk.doc.age-unknown.${protocol.ageUnknown}`)} {say('desk.doc.birth-end')}
      </p>
      {tools?.whole(protocol)}
      {protocol.keepApart.length === 0 ? null : (
        <section className="sheet stack keep" aria-label={say('desk.doc.keep-apart')}>
          <h2>{say('desk.doc.keep-apart')}</h2>
          <SourcedLines lines={keepApartLines(protocol)} sources={protocol.sources} />
        </section>
      )}
      {protocol.weightWatch.length === 0 ? null : (
        <section className="sheet stack keep" aria-label={say('desk.doc.watch')}>
          <h2>{say('desk.doc.watch')}</h2>
          <p className="soft">{say('desk.doc.watch-lead')}</p>
          <SourcedLines lines={protocol.weightWatch.flatMap(weightLines)} sources={protocol.sources} />
        </section>
      )}
      {protocol.heldLong === null ? null : (
        <section className="sheet stack keep" aria-label={say('desk.doc.held-long')}>
          <h2>{say('desk.doc.held-long')}</h2>
          <p className="soft">{say('desk.doc.held-long-lead')}</p>
          <SourcedLines lines={heldLongLines(protocol)} sources={protocol.sources} />
        </section>
      )}
      {protocol.countersign === null ? null : (
        <section className="sheet stack keep" aria-label={say('desk.doc.countersign')}>
          <h2>{say('desk.doc.countersign')}</h2>
          <SourcedLines lines={countersignLines(protocol)} sources={protocol.sources} />
        </section>
      )}
      {protocol.schedules.map((schedule) => (
        <ScheduleView key={schedule.id} schedule={schedule} protocol={protocol} />
      ))}
      <Variants protocol={protocol} inForce={inForce} />
      {protocol.choices.length === 0 ? null : (
        <Part title={say('desk.doc.choices')}>
          <p className="soft">{say('desk.doc.choices-lead')}</p>
          {protocol.choices.map((choice) => (
            <div key={choice.id} className="sheet stack tight keep">
              <h3>{choice.question}</h3>
              <ul className="plain">
                {choice.options.map((option) => (
                  <li key={option.id}>
                    <State tone={option.id === choice.chosen ? 'done' : 'plain'}>
                      {option.words}
                      {option.id === choice.chosen ? ` (${say('desk.doc.chosen')})` : ''}
                    </State>
                    <div className="small soft">
                      <SourceTitle id={option.source} sources={protocol.sources} />{' '}
                      {say(`desk.standing.${option.standing}`)}
                      {option.note === '' ? '' : `. ${option.note}`}
                    </div>
                  </li>
                ))}
              </ul>
            </div>
          ))}
        </Part>
      )}
      <Part title={say('desk.doc.sources')}>
        <SourceList sources={protocol.sources} />
      </Part>
    </>
  );
}

const anchorOf = (schedule: Schedule): string => `treatment-${schedule.id}`;

/** A way to each treatment of a long document. */
function Contents({ protocol }: { protocol: ProtocolDocument }) {
  return (
    <nav className="contents no-print" aria-label={say('desk.doc.contents')}>
      <ul className="plain">
        {protocol.schedules.map((schedule) => (
          <li key={schedule.id}>
            <a href={`#${anchorOf(schedule)}`}>{schedule.name}</a>
            {schedule.active ? null : <span className="soft small"> {say('desk.doc.not-used')}</span>}
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** Given around a document that may be changed: what stands beside values that have no source of their own. */
export interface FrameToolsFor {
  readonly whole: (protocol: ProtocolDocument) => ReactNode;
  readonly schedule: (schedule: Schedule) => ReactNode;
  readonly target: (target: Target, place: string) => ReactNode;
}
export const FrameTools = createContext<FrameToolsFor | null>(null);

function ScheduleView({ schedule, protocol }: { schedule: Schedule; protocol: ProtocolDocument }) {
  const tools = useContext(FrameTools);
  const own = scheduleLines(schedule, nameIn(protocol));
  return (
    <section className="sheet stack keep" aria-label={schedule.name}>
      <div className="row spread base">
        <h2 id={anchorOf(schedule)} tabIndex={-1}>
          {schedule.name}
        </h2>
        <span className="soft">
          {say(`desk.doc.action.${schedule.action}`)}
          {schedule.active ? '' : `, ${say('desk.doc.not-used')}`}
        </span>
      </div>
      <p className="small">
        {schedule.satisfiedBy.length === 0
          ? ''
          : `${say('desk.doc.satisfied-by', { classes: schedule.satisfiedBy.join(', ') })} `}
        {schedule.claims.length === 0 ? '' : `${say('desk.doc.accepts', { claims: { list: schedule.claims } })} `}
        {say('desk.doc.visit-order', { number: schedule.visitOrder })}{' '}
        {schedule.action === 'give' ? say(`desk.doc.label-${schedule.labelAge}`) : ''}
      </p>
      {tools?.schedule(schedule)}
      {schedule.series.map((series) => (
        <SeriesView key={series.id} series={series} schedule={schedule} protocol={protocol} />
      ))}
      {own.length === 0 ? null : (
        <div className="ruled">
          <SourcedLines lines={own} sources={protocol.sources} place={schedule.name} />
        </div>
      )}
    </section>
  );
}

interface SeriesViewProps {
  readonly series: Series;
  readonly schedule: Schedule;
  readonly protocol: ProtocolDocument;
}

function SeriesView({ series, schedule, protocol }: SeriesViewProps) {
  const tools = useContext(FrameTools);
  const inside = (what: string): string => say('desk.doc.in-place', { place: schedule.name, what });
  const { when } = series.start;
  const conditions = when.map((condition) => conditionWords(condition, nameIn(protocol))).join(', ');
  return (
    <div className="stack tight ruled">
      <h3>{series.name}</h3>
      {when.length === 0 ? null : <p>{say('desk.doc.when', { what: conditions })}</p>}
      {series.again === null ? null : <p>{say('desk.doc.again', { code: series.again })}</p>}
      <SourcedLines lines={seriesStart(series)} sources={protocol.sources} place={inside(series.name)} />
      {series.targets.map((target, index) => (
        <div key={target.id} className="stack tight">
          <p>
            <b>{say('desk.doc.target', { number: index + 1 })}</b> {targetWords(target)}
          </p>
          <SourcedLines
            lines={targetLines(target, nameIn(protocol))}
            sources={protocol.sources}
            place={inside(doseWords(series, index))}
          />
          {tools?.target(target, inside(doseWords(series, index)))}
        </div>
      ))}
    </div>
  );
}

function targetWords(target: Target): string {
  return [
    say(`desk.doc.on.${target.on.is}`, { code: codesOf(target.on).join(', ') }),
    target.repeats === null ? '' : say('desk.doc.repeated'),
    target.times.length === 0 ? '' : say('desk.doc.times', { times: { list: target.times } }),
    target.upkeep ? say('desk.doc.upkeep') : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}
