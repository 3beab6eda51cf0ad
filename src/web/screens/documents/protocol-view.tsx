import type { ProtocolDocument, Schedule } from '../../../core/protocol/document.js';
import { say } from '../../../words/say.js';
import { Part } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import { holdLine, scheduleLines, seriesStart, targetLines } from './protocol-lines.js';
import { SourcedLines, SourceList, SourceTitle } from './sourced.js';

export function ProtocolView({ protocol }: { protocol: ProtocolDocument }) {
  return (
    <>
      {protocol.schedules.map((schedule) => (
        <ScheduleView key={schedule.id} schedule={schedule} protocol={protocol} />
      ))}
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
  const nameOf = (id: string): string => protocol.schedules.find((one) => one.id === id)?.name ?? id;
  const own = [...scheduleLines(schedule, nameOf), ...schedule.holds.map(holdLine)];
  return (
    <section className="sheet stack keep" aria-label={schedule.name}>
      <div className="row spread base">
        <h2>{schedule.name}</h2>
        <span className="soft">{say(`desk.doc.action.${schedule.action}`)}</span>
      </div>
      {schedule.satisfiedBy.length === 0 ? null : (
        <p className="small">{say('desk.doc.satisfied-by', { classes: schedule.satisfiedBy.join(', ') })}</p>
      )}
      {schedule.series.map((series) => (
        <div key={series.id} className="stack tight ruled">
          <h3>{series.name}</h3>
          <SourcedLines lines={seriesStart(series)} sources={protocol.sources} />
          {series.targets.map((target, index) => (
            <div key={target.id} className="stack tight">
              <p>
                <b>{say('desk.doc.target', { number: index + 1 })}</b>{' '}
                {say(`desk.doc.on.${target.on.is}`, { code: 'code' in target.on ? target.on.code : '' })}
                {target.repeats === null ? '' : ` ${say('desk.doc.repeated')}`}
              </p>
              <SourcedLines lines={targetLines(target)} sources={protocol.sources} />
            </div>
          ))}
        </div>
      ))}
      {own.length === 0 ? null : (
        <div className="ruled">
          <SourcedLines lines={own} sources={protocol.sources} />
        </div>
      )}
    </section>
  );
}
