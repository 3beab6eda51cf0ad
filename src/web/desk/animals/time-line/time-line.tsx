import './time-line.css';
import { useId, useMemo, useRef, useState } from 'react';
import type { Animal } from '../../../../core/animal/animal.js';
import { type CalendarDate, dayFromNumber, dayNumber } from '../../../../core/calendar.js';
import { stateOfDue } from '../../../../told/due-words.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { State } from '../../../parts/state.js';
import { useShelter } from '../../../store/here.js';
import { LanePicture } from './lane-picture.js';
import { type Lane, lanesOf } from './lanes.js';
import { Legend } from './legend.js';
import { type Reach, type Scale, scaleOf } from './scale.js';
import { type Stop, stopsOf } from './stops.js';
import { TimeLineTable } from './time-line-table.js';
import { useWalk } from './walk.js';

interface TimeLineProps {
  readonly animal: Animal;
  readonly today: CalendarDate;
  readonly label: string;
  /** Words on the line of the day that is looked at, when it is not today. */
  readonly dayWords?: string;
}

/** The whole series of every schedule of one animal on one strip of days, with the same in a table behind it. */
export function TimeLine({ animal, today, label, dayWords = say('timeline.today') }: TimeLineProps) {
  const shelter = useShelter();
  const [reach, setReach] = useState<Reach>('near');
  const lanes = useMemo(() => lanesOf(animal, shelter, today), [animal, shelter, today]);
  const scale = useMemo(() => scaleOf(lanes, today, reach), [lanes, today, reach]);
  const rows = lanes.map((lane) => ({ lane, stops: stopsOf(lane) }));
  const seen = rows.map(({ stops }) => stops.filter((stop) => scale.shows(stop.day)));
  const frame = useRef<HTMLDivElement>(null);
  const walk = useWalk(seen, frame);
  const id = useId();
  if (lanes.length === 0) return <p>{say('timeline.nothing')}</p>;
  const chosen = walk.at === null ? undefined : seen[walk.at.lane]?.[walk.at.stop];
  return (
    <div className="stack tight">
      <div className="no-print">
        <ChooseOne
          label={say('timeline.show')}
          options={[
            { id: 'near', label: say('timeline.near') },
            { id: 'whole', label: say('timeline.whole') },
          ]}
          value={reach}
          onChange={setReach}
          flow
        />
      </div>
      <div ref={frame} className="tl sheet" role="toolbar" aria-label={label} onKeyDown={walk.onKey}>
        <Axis scale={scale} today={today} words={dayWords} />
        {rows.map(({ lane }, index) => (
          <div key={lane.id} className="tl-lane">
            <LaneName lane={lane} />
            <div className="tl-strip">
              <LanePicture lane={lane} scale={scale} today={dayNumber(today)} hatch={`${id}-${index}`} />
              {(seen[index] ?? []).map((stop, place) => (
                <StopButton
                  key={stop.key}
                  stop={stop}
                  scale={scale}
                  lane={lane}
                  tabbed={walk.isTabStop(index, place)}
                  onReach={() => walk.reach({ lane: index, stop: place })}
                />
              ))}
            </div>
          </div>
        ))}
      </div>
      <p className="tl-told no-print" role="status">
        {chosen === undefined ? say('timeline.how') : `${chosen.what}: ${chosen.words}`}
      </p>
      <Legend />
      <TimeLineTable rows={rows} label={label} />
    </div>
  );
}

function LaneName({ lane }: { lane: Lane }) {
  const { tone, text } = stateOfDue(lane.item);
  return (
    <div className="tl-name">
      <b>{lane.item.scheduleName}</b> <State tone={tone}>{text}</State>
    </div>
  );
}

interface StopButtonProps {
  readonly stop: Stop;
  readonly scale: Scale;
  readonly lane: Lane;
  readonly tabbed: boolean;
  readonly onReach: () => void;
}

function StopButton({ stop, scale, lane, tabbed, onReach }: StopButtonProps) {
  const name = say('timeline.stop', {
    schedule: lane.item.scheduleName,
    on: { date: dayFromNumber(stop.day) },
    what: stop.what,
    words: stop.words,
  });
  return (
    <button
      type="button"
      className={stop.key.startsWith('given') ? 'tl-stop' : 'tl-stop low'}
      style={{ left: `${scale.at(stop.day)}%` }}
      tabIndex={tabbed ? 0 : -1}
      aria-label={name}
      title={name}
      onFocus={onReach}
      onClick={onReach}
    />
  );
}

function Axis({ scale, today, words }: { scale: Scale; today: CalendarDate; words: string }) {
  const edge = (at: number): 'start' | 'middle' | 'end' => (at < 12 ? 'start' : at > 88 ? 'end' : 'middle');
  const now = scale.at(dayNumber(today));
  // At the right edge a label would run into the one before.
  const labelled = (tick: number): boolean => scale.at(tick) <= 90;
  return (
    <div className="tl-lane axis">
      <div className="tl-name" />
      <div className="tl-strip">
        <svg width="100%" height="40" className="tl-picture" aria-hidden="true">
          <text x={`${now}%`} y="14" textAnchor={edge(now)} className="tl-today">
            {words}
          </text>
          {scale.ticks.filter(labelled).map((tick) => (
            <text key={tick} x={`${scale.at(tick)}%`} y="33" textAnchor={edge(scale.at(tick))} className="tl-edge">
              {dayFromNumber(tick)}
            </text>
          ))}
        </svg>
      </div>
    </div>
  );
}
