import { startTransition, useContext, useDeferredValue, useEffect, useId, useRef, useState } from 'react';
import { say } from '../../../words/say.js';
import { along, cross, type Frame, within } from './frame.js';
import { type Hand, HandContext } from './hand.js';
import { Hatches } from './hatches.js';
import { depthOf, Lane } from './lane.js';
import { endOfPicture, type RibbonLane, type RibbonPicture, startOf } from './ribbon-data.js';
import { RibbonTable } from './ribbon-table.js';
import { marksFor, stripsFor } from './strips.js';
import { type StripData, useHand } from './use-hand.js';
import { WayKey } from './way.js';
import './ribbon.css';

interface RibbonProps {
  readonly picture: RibbonPicture;
  /** One sentence that says what the picture shows. */
  readonly label: string;
  readonly now_ms?: number | null;
  /** Left out when the picture is not to be changed. */
  readonly hand?: Hand;
}

/** Left of the time: the names of the lanes. */
const nameWidth = 76;
const headHeight = 24;
const laneGap = 18;
/** Narrower than this, time goes down. */
const narrow_px = 640;
const nothing: RibbonPicture = { zero_ms: 0, lanes: [] };
/** Before the page is laid out there is no width to draw on. */
const least_px = 200;
const paper_px = 1000;

/**
 * The round ribbon: the shift as a strip of time, one lane per team, sections with their hatches, animals in hand, and
 * each test as a thread that ends in its read window. The same facts stand in a table behind it.
 */
export function Ribbon({ picture, label, now_ms = null, hand }: RibbonProps) {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const { held, told } = useHand(frame, picture, hand);
  // What is for paper and behind the fold is drawn when the hands are free.
  const later = useDeferredValue(picture, nothing);
  const now_s = now_ms === null ? null : (now_ms - picture.zero_ms) / 1000;
  return (
    <figure className="ribbon">
      <div ref={frame} className="ribbon-screen">
        <HandContext value={held}>
          {width < least_px ? null : width < narrow_px ? (
            picture.lanes.map((lane, i) => (
              <Down key={lane.name} picture={picture} number={i} width={width} label={label} now_s={now_s} />
            ))
          ) : (
            <Across picture={picture} width={width} label={label} now_s={now_s} />
          )}
        </HandContext>
        {held === null ? null : (
          <>
            <p className="soft small ribbon-how">{say('ribbon.hand.how')}</p>
            <p
              role="status"
              className={`ribbon-told${held.holding === null ? '' : held.holding.ok ? ' on' : ' on refused'}`}
            >
              {told}
            </p>
          </>
        )}
      </div>
      <div className="ribbon-paper">
        <Across picture={later} width={paper_px} label={label} now_s={null} />
      </div>
      <WayKey picture={picture} />
      <RibbonTable picture={later} label={label} />
    </figure>
  );
}

function useWidth(frame: React.RefObject<HTMLDivElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => {
      // On paper the screen's ribbon has no width; what it was on the screen is kept.
      if (element.clientWidth > 0) startTransition(() => setWidth(element.clientWidth));
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, [frame]);
  return width;
}

interface ViewProps {
  readonly picture: RibbonPicture;
  readonly width: number;
  readonly label: string;
  readonly now_s: number | null;
}

/** A picture, or a group of buttons where animals can be moved. */
const stripProps = (movable: boolean, data: StripData) =>
  movable
    ? ({ role: 'group', className: 'ribbon-strip movable', 'data-strip': JSON.stringify(data) } as const)
    : ({ role: 'img', className: 'ribbon-strip' } as const);

function Across({ picture, width, label, now_s }: ViewProps) {
  const movable = useContext(HandContext) !== null;
  const id = useId().replaceAll(/[^a-zA-Z0-9]/g, '');
  const [from_s, to_s] = [startOf(picture), endOfPicture(picture)];
  const { perMinute, strips } = stripsFor(from_s, to_s, width - nameWidth - 24);
  const depths = picture.lanes.map((lane) => depthOf(lane, false));
  const height = headHeight + depths.reduce((sum, depth) => sum + depth + laneGap, 0) + 12;
  return strips.map((strip, at) => {
    const frame: Frame = { down: false, ...strip, perMinute, along0: nameWidth };
    const tops = depths.map((_, i) => headHeight + 8 + depths.slice(0, i).reduce((sum, one) => sum + one + laneGap, 0));
    const lanes = depths.map((depth, lane) => ({ lane, top: tops[lane] ?? 0, depth }));
    return (
      <svg
        key={strip.from_s}
        viewBox={`0 0 ${width} ${height}`}
        {...stripProps(movable, { frame, lanes })}
        aria-label={strips.length === 1 ? label : say('ribbon.part', { label, part: at + 1, parts: strips.length })}
      >
        <Hatches id={`${id}${at}`} />
        <Scale picture={picture} frame={frame} from={headHeight} to={height - 14} />
        {picture.lanes.map((lane, i) => {
          const [top, depth] = [tops[i] ?? 0, depths[i] ?? 0];
          return (
            <g key={lane.name}>
              <text x={0} y={top + 54} className="ribbon-lane">
                {lane.name}
              </text>
              <Lane
                id={`${id}${at}`}
                lane={lane}
                number={i}
                zero_ms={picture.zero_ms}
                frame={frame}
                at={top}
                depth={depth}
              />
            </g>
          );
        })}
        <Now picture={picture} frame={frame} now_s={now_s} from={headHeight - 4} to={height - 14} />
      </svg>
    );
  });
}

/** On a phone: one lane, time going down, so that names can be read. */
function Down({ picture, number, width, label, now_s }: ViewProps & { number: number }) {
  const movable = useContext(HandContext) !== null;
  const id = useId().replaceAll(/[^a-zA-Z0-9]/g, '');
  const lane: RibbonLane = picture.lanes[number] ?? { name: '', sections: [] };
  const own = { ...picture, lanes: [lane] };
  const [from_s, to_s] = [startOf(picture), endOfPicture(own)];
  const perMinute = 15;
  const height = Math.ceil(((to_s - from_s) / 60) * perMinute) + 40;
  const frame: Frame = { down: true, from_s, to_s, perMinute, along0: 20 };
  const depth = Math.min(depthOf(lane, true), width - 60);
  const strip = stripProps(movable, { frame, lanes: [{ lane: number, top: 58, depth }] });
  return (
    <div>
      <p>
        <b>{lane.name}</b>
      </p>
      <svg viewBox={`0 0 ${width} ${height}`} {...strip} aria-label={`${lane.name}. ${label}`}>
        <Hatches id={id} />
        <Scale picture={picture} frame={frame} from={50} to={width} />
        <Lane id={id} lane={lane} number={number} zero_ms={picture.zero_ms} frame={frame} at={58} depth={depth} />
        <Now picture={picture} frame={frame} now_s={now_s} from={44} to={width} />
      </svg>
    </div>
  );
}

const timeOf = (picture: RibbonPicture, at_s: number): string =>
  say('ribbon.time', { at: { instant: new Date(picture.zero_ms + at_s * 1000).toISOString() } });

function Scale({ picture, frame, from, to }: { picture: RibbonPicture; frame: Frame; from: number; to: number }) {
  return (
    <g>
      {marksFor(picture.zero_ms, frame.from_s, frame.to_s, frame.perMinute).map((at_s) => (
        <g key={at_s}>
          <path d={cross(frame, at_s, from, to)} className="ribbon-grid" />
          <text
            x={frame.down ? 0 : along(frame, at_s)}
            y={frame.down ? along(frame, at_s) + 4 : 14}
            textAnchor={frame.down ? 'start' : 'middle'}
            className="ribbon-time"
          >
            {timeOf(picture, at_s)}
          </text>
        </g>
      ))}
    </g>
  );
}

function Now({
  picture,
  frame,
  now_s,
  from,
  to,
}: {
  picture: RibbonPicture;
  frame: Frame;
  now_s: number | null;
  from: number;
  to: number;
}) {
  if (now_s === null || !within(frame, now_s)) return null;
  const at = along(frame, now_s);
  const words = say('ribbon.now', { at: { instant: new Date(picture.zero_ms + now_s * 1000).toISOString() } });
  const late = !frame.down && now_s > (frame.from_s + frame.to_s) / 2;
  return (
    <g>
      <path d={cross(frame, now_s, from, to)} className="ribbon-now" />
      <text
        x={frame.down ? to - 4 : late ? at - 6 : at + 6}
        y={frame.down ? at - 5 : to + 12}
        textAnchor={frame.down || late ? 'end' : 'start'}
        className="ribbon-now-words"
      >
        {words}
      </text>
    </g>
  );
}
