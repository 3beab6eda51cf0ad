import type { ProtocolDocument, Schedule, Series, Target } from '../../../core/protocol/document.js';
import { say } from '../../../words/say.js';
import { Part } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import { conditionWords, nameIn, scheduleLines, seriesStart, targetLines } from './protocol-lines.js';
import { SourcedLines, SourceList, SourceTitle } from './sourced.js';
import { Variants } from './variants.js';

/** A protocol to be read from end to end: every schedule with its values and their sources. */
export function ProtocolView({ protocol, inForce }: { protocol: ProtocolDocument; inForce: boolean }) {
  return (
    <>
      <p>{say(`desk.doc.age-unknown.${protocol.ageUnknown}`)}</p>
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

function ScheduleView({ schedule, protocol }: { schedule: Schedule; protocol: ProtocolDocument }) {
  const own = scheduleLines(schedule, nameIn(protocol));
  return (
    <section className="sheet stack keep" aria-label={schedule.name}>
      <div className="row spread base">
        <h2>{schedule.name}</h2>
        <span className="soft">
          {say(`desk.doc.action.${schedule.action}`)}
          {schedule.active ? '' : `, ${say('desk.doc.not-used')}`}
        </span>
      </div>
      {schedule.satisfiedBy.length === 0 ? null : (
        <p className="small">{say('desk.doc.satisfied-by', { classes: schedule.satisfiedBy.join(', ') })}</p>
      )}
      {schedule.labelAge === 'hold' ? <p className="small">{say('desk.doc.label-hold')}</p> : null}
      {schedule.series.map((series) => (
        <SeriesView key={series.id} series={series} protocol={protocol} />
      ))}
      {own.length === 0 ? null : (
        <div className="ruled">
          <SourcedLines lines={own} sources={protocol.sources} />
        </div>
      )}
    </section>
  );
}

function SeriesView({ series, protocol }: { series: Series; protocol: ProtocolDocument }) {
  const { when } = series.start;
  const conditions = when.map((condition) => conditionWords(condition, nameIn(protocol))).join(', ');
  return (
    <div className="stack tight ruled">
      <h3>{series.name}</h3>
      {when.length === 0 ? null : <p>{say('desk.doc.when', { what: conditions })}</p>}
      {series.again === null ? null : <p>{say('desk.doc.again', { code: series.again })}</p>}
      <SourcedLines lines={seriesStart(series)} sources={protocol.sources} />
      {series.targets.map((target, index) => (
        <div key={target.id} className="stack tight">
          <p>
            <b>{say('desk.doc.target', { number: index + 1 })}</b> {targetWords(target)}
          </p>
          <SourcedLines lines={targetLines(target)} sources={protocol.sources} />
        </div>
      ))}
    </div>
  );
}

function targetWords(target: Target): string {
  return [
    say(`desk.doc.on.${target.on.is}`, { code: 'code' in target.on ? target.on.code : '' }),
    target.repeats === null ? '' : say('desk.doc.repeated'),
    target.times.length === 0 ? '' : say('desk.doc.times', { times: { list: target.times } }),
    target.upkeep ? say('desk.doc.upkeep') : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}
