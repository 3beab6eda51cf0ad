import { type DayNumber, dayFromNumber } from '../../../../core/calendar.js';
import { dueWedge, HoldHatch, signOf, WorthGlyph } from './glyphs.js';
import type { DueWindow, Lane } from './lanes.js';
import type { Scale } from './scale.js';

const height = 58;
/** Pixels from the top: the signs of what was done, the line they stand on, and the line of what is due. */
const done = 13;
const base = 25;
const open = 47;

interface LanePictureProps {
  readonly lane: Lane;
  readonly scale: Scale;
  readonly today: DayNumber;
  readonly hatch: string;
}

/** One schedule on its strip. For the eyes only: the stops beside it and the table say the same in words. */
export function LanePicture({ lane, scale, today, hatch }: LanePictureProps) {
  const x = (day: DayNumber): string => `${scale.at(day)}%`;
  const { hold } = lane;
  return (
    <svg width="100%" height={height} className="tl-picture" aria-hidden="true">
      <HoldHatch id={hatch} />
      {scale.ticks.map((tick) => (
        <line key={tick} x1={x(tick)} x2={x(tick)} y1="0" y2={height} stroke="var(--line)" />
      ))}
      {hold === null ? null : (
        <rect
          x={x(hold.from)}
          width={`${scale.at(hold.to ?? scale.to) - scale.at(hold.from)}%`}
          y="2"
          height={height - 4}
          fill={`url(#${hatch})`}
          stroke="var(--ochre)"
        />
      )}
      <line x1="0" x2="100%" y1={base} y2={base} stroke="var(--rule)" />
      {lane.windows.map((one) => (
        <Bracket key={`${one.ahead} ${one.due}`} window={one} scale={scale} today={today} />
      ))}
      <line x1={x(today)} x2={x(today)} y1="0" y2={height} stroke="var(--ink)" strokeWidth="2.5" />
      {lane.marks
        .filter((mark) => scale.shows(mark.day))
        .map((mark) => (
          <svg key={`${mark.worth.record} ${mark.day}`} x={x(mark.day)} y={done} overflow="visible" aria-hidden="true">
            <WorthGlyph worth={signOf(mark.worth)} />
          </svg>
        ))}
      <Beyond lane={lane} scale={scale} />
    </svg>
  );
}

/** From the first day to the last in time, with a wedge on the day it is due; overdue days are a thick line. */
function Bracket({ window, scale, today }: { window: DueWindow; scale: Scale; today: DayNumber }) {
  const end = window.to ?? window.due;
  if (end < scale.from || window.from > scale.to) return null;
  const x = (day: DayNumber): string => `${scale.at(day)}%`;
  const later = window.ahead > 0;
  const late = !later && window.item.status === 'overdue';
  const ink = late ? 'var(--madder)' : later ? 'var(--ink-soft)' : 'var(--ink)';
  const post = { y1: open - 7, y2: open + 7, stroke: ink, strokeWidth: later ? 1.5 : 2.2 };
  return (
    <>
      <line
        x1={x(window.from)}
        x2={x(end)}
        y1={open}
        y2={open}
        stroke={ink}
        strokeWidth={later ? 1.5 : 2.2}
        {...(later ? { strokeDasharray: '3 3' } : {})}
      />
      {scale.shows(window.from) ? <line x1={x(window.from)} x2={x(window.from)} {...post} /> : null}
      {scale.shows(end) && window.to !== null ? <line x1={x(end)} x2={x(end)} {...post} /> : null}
      {late ? <line x1={x(end)} x2={x(today)} y1={open} y2={open} stroke={ink} strokeWidth="6" /> : null}
      {scale.shows(window.due) ? (
        <svg x={x(window.due)} y={open - 1} overflow="visible" aria-hidden="true">
          <path d={dueWedge} fill={later ? 'var(--sheet)' : ink} stroke={ink} strokeWidth="1.5" />
        </svg>
      ) : null}
    </>
  );
}

/** What lies beyond the edges of the strip: how many at the left, the next day at the right. */
function Beyond({ lane, scale }: { lane: Lane; scale: Scale }) {
  const before = lane.marks.filter((mark) => mark.day < scale.from).length;
  const after = lane.windows.find((one) => one.due > scale.to);
  return (
    <>
      {before === 0 ? null : <text x="2" y={done + 4} className="tl-edge">{`◂ ${before}`}</text>}
      {after === undefined ? null : (
        <text x="100%" dx="-2" y={done + 4} textAnchor="end" className="tl-edge">
          {`${dayFromNumber(after.due)} ▸`}
        </text>
      )}
    </>
  );
}
