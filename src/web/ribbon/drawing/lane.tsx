import { useContext } from 'react';
import { say } from '../../../words/say.js';
import { along, type Box, boxOf, cross, type Frame, shortName, stretch, within } from './frame.js';
import { firstBlocks, HandContext, keyOf, momentOf, type Spot } from './hand.js';
import { hatchFill } from './hatches.js';
import {
  blockInWords,
  type RibbonBlock,
  type RibbonLane,
  type RibbonSection,
  type RibbonThread,
} from './ribbon-data.js';
import { Way } from './way.js';

const band = 20;
const blocksAt = 28;
/** Deep enough for a finger, and for a name that runs upward where the animal is short in hand. */
const blockThick = 44;
const threadsAt = 86;
const rowThick = 16;
const letter_px = 7.4;

/** Depth that a lane needs; a phone's blocks are wide enough for whole names. */
export const depthOf = (lane: RibbonLane, down: boolean): number => {
  const rows = Math.max(1, ...lane.sections.flatMap((one) => one.threads.map((thread) => thread.row + 1)));
  return (down ? blocksAt + downThick + 14 : threadsAt) + rows * (down ? 22 : rowThick) + 8;
};
const downThick = 150;

interface LaneProps {
  readonly id: string;
  readonly lane: RibbonLane;
  /** Which lane of the picture it is. */
  readonly number: number;
  /** Milliseconds since 1970 of second 0. */
  readonly zero_ms: number;
  readonly frame: Frame;
  /** Where the lane begins across the time. */
  readonly at: number;
  readonly depth: number;
}

/** One team: its sections one after another, animals in hand above, tests below. */
export function Lane({ lane, ...own }: LaneProps) {
  return (
    <g>
      {lane.sections.map((section) => (
        <Section key={section.id} section={section} {...own} />
      ))}
    </g>
  );
}

function Section(props: Omit<LaneProps, 'lane'> & { readonly section: RibbonSection }) {
  const { id, number, zero_ms, section, frame, at, depth } = props;
  const whole = boxOf(frame, section.inside_s, section.work_s, at, depth);
  const head = boxOf(frame, section.inside_s, section.work_s, at, band);
  const thick = frame.down ? downThick : blockThick;
  const firsts = new Set(firstBlocks(section));
  return (
    <g>
      <Going frame={frame} from_s={section.start_s} to_s={section.inside_s} at={at + blocksAt} thick={thick} />
      {whole === null ? null : <rect {...whole} className="ribbon-room" />}
      {head === null ? null : <rect {...head} fill={hatchFill(id, section.rank)} className="ribbon-hatch" />}
      <SectionName section={section} frame={frame} at={at} room={head} />
      {section.gloves.map((span) => {
        const box = boxOf(frame, span.from_s, span.to_s, at + blocksAt, thick);
        return box === null ? null : (
          <rect key={span.from_s} {...shrunk(box, frame)} className="ribbon-gloves">
            <title>{say('ribbon.gloves')}</title>
          </rect>
        );
      })}
      {section.blocks.map((block) => (
        <Block
          key={firsts.has(block) ? block.animal : `${block.animal} ${block.from_s}`}
          block={block}
          spot={{ lane: number, section: section.id, animal: block.animal }}
          first={firsts.has(block)}
          frame={frame}
          at={at + blocksAt}
          thick={thick}
        />
      ))}
      {section.ways.map((way) => (
        <Way
          key={`${way.animal} ${way.from_s}`}
          way={way}
          frame={frame}
          foot={at + blocksAt + thick}
          zero_ms={zero_ms}
        />
      ))}
      {section.threads.map((thread) => (
        <Thread
          key={`${thread.name} ${thread.from_s}`}
          thread={thread}
          frame={frame}
          at={at + (frame.down ? blocksAt + downThick + 22 + thread.row * 22 : threadsAt + 4 + thread.row * rowThick)}
        />
      ))}
      <Going frame={frame} from_s={section.work_s} to_s={section.end_s} at={at + blocksAt} thick={thick} />
      <Landing number={number} section={section} frame={frame} at={at + blocksAt} thick={thick} />
    </g>
  );
}

/** Neighbours do not touch. */
const shrunk = (box: Box, frame: Frame): Box =>
  frame.down ? { ...box, height: Math.max(1, box.height - 2) } : { ...box, width: Math.max(1, box.width - 2) };

function SectionName({
  section,
  frame,
  at,
  room,
}: {
  section: RibbonSection;
  frame: Frame;
  at: number;
  room: Box | null;
}) {
  if (room === null) return null;
  const text = shortName(section.name, (frame.down ? 200 : room.width) - 18, 7.8);
  if (text === '') return null;
  if (frame.down) {
    return (
      <text x={at} y={Math.max(room.y - 5, 12)} className="ribbon-name down">
        {text}
      </text>
    );
  }
  return (
    <>
      <rect x={room.x + 5} y={room.y + 2} width={text.length * 7.8 + 10} height={16} className="ribbon-plate" />
      <text x={room.x + 10} y={room.y + 15} className="ribbon-name">
        {text}
      </text>
    </>
  );
}

/** On the way, gowning, taking off, wiping down: a dashed line. */
function Going({
  frame,
  from_s,
  to_s,
  at,
  thick,
}: {
  frame: Frame;
  from_s: number;
  to_s: number;
  at: number;
  thick: number;
}) {
  const box = boxOf(frame, from_s, to_s, at, thick);
  if (box === null) return null;
  return (
    <g>
      <title>{say('ribbon.on-the-way')}</title>
      <path d={stretch(frame, from_s, to_s, at + (frame.down ? 12 : thick / 2))} className="ribbon-way" />
    </g>
  );
}

const glyph = { ahead: '', done: '✓', 'not-done': '–', look: '△', under: '' } as const;

interface BlockProps {
  readonly block: RibbonBlock;
  readonly spot: Spot;
  /** Where the animal is met first: there it can be gone to with the keys. */
  readonly first: boolean;
  readonly frame: Frame;
  readonly at: number;
  readonly thick: number;
}

function Block({ block, spot, first, frame, at, thick }: BlockProps) {
  const hand = useContext(HandContext);
  const box = boxOf(frame, block.from_s, block.to_s, at, thick);
  if (box === null) return null;
  const own = shrunk(box, frame);
  const sign = glyph[block.state];
  const room = own.width - 6 - sign.length * letter_px;
  const level = own.height < 11 ? '' : shortName(block.name, room, letter_px);
  const upward =
    frame.down || own.width < 11 ? '' : shortName(block.name, own.height - 6 - sign.length * letter_px, letter_px);
  const turned = upward.length > level.length;
  const name = turned ? upward : level;
  const text = sign !== '' && (turned || room >= 0) ? `${sign}${name}` : name;
  const title = blockInWords(block);
  const key = keyOf(spot);
  const lifted = hand?.holding?.by === 'keys' && keyOf(hand.holding.spot) === key;
  const reach =
    hand !== null && first && within(frame, block.from_s) && block.from_s < frame.to_s
      ? {
          role: 'button',
          tabIndex: hand.current === key ? 0 : -1,
          'data-hand': key,
          'aria-label': hand.labelOf(spot, block),
          'aria-pressed': lifted,
          onKeyDown: (event: React.KeyboardEvent) => hand.keyDown(spot, event),
          onFocus: () => hand.focused(spot),
          onBlur: hand.left,
        }
      : {};
  const grip =
    hand === null ? {} : { onPointerDown: (event: React.PointerEvent<SVGGElement>) => hand.pointerDown(spot, event) };
  return (
    <g className={hand === null ? undefined : `ribbon-grip${lifted ? ' held' : ''}`} {...reach} {...grip}>
      {hand === null ? <title>{title}</title> : null}
      <rect {...own} className={`ribbon-block ${block.state}`} />
      {text === '' ? null : (
        <text
          x={frame.down ? own.x + 6 : own.x + own.width / 2}
          y={frame.down ? own.y + Math.min(own.height / 2 + 4, 16) : own.y + own.height / 2 + 4}
          textAnchor={frame.down ? 'start' : 'middle'}
          className={`ribbon-in ${block.state}`}
          transform={turned ? `rotate(-90 ${own.x + own.width / 2} ${own.y + own.height / 2})` : undefined}
        >
          {text}
        </text>
      )}
    </g>
  );
}

/** Where the animal in hand would be put down, in another colour and dashed when that would break a rule. */
function Landing({
  number,
  section,
  frame,
  at,
  thick,
}: {
  number: number;
  section: RibbonSection;
  frame: Frame;
  at: number;
  thick: number;
}) {
  const holding = useContext(HandContext)?.holding ?? null;
  if (holding === null || holding.place.lane !== number || holding.place.section !== section.id) return null;
  const moment = momentOf(section, holding.place.gap);
  if (!within(frame, moment)) return null;
  const a = along(frame, moment) - 1;
  const [from, to] = [at - 7, at + thick + 7];
  const ends = frame.down
    ? `M${from} ${a - 6}l9 6l-9 6zM${to} ${a - 6}l-9 6l9 6z`
    : `M${a - 6} ${from}l6 9l6 -9zM${a - 6} ${to}l6 -9l6 9z`;
  return (
    <g className={holding.ok ? 'ribbon-landing' : 'ribbon-landing refused'}>
      <path d={frame.down ? `M${from} ${a}H${to}` : `M${a} ${from}V${to}`} className="ribbon-landing-line" />
      <path d={ends} />
    </g>
  );
}

/** A test: a dot where it starts, a line while it runs, a gate for its read window, a tick where it is read. */
function Thread({ thread, frame, at }: { thread: RibbonThread; frame: Frame; at: number }) {
  const seen = boxOf(frame, thread.from_s, thread.closes_s, at, 1);
  if (seen === null) return null;
  const gate = boxOf(frame, thread.opens_s, thread.closes_s, at - 5, 10);
  const dot = along(frame, thread.from_s);
  return (
    <g className={`ribbon-thread ${thread.state}`}>
      <title>{say(`ribbon.thread.${thread.state}`, { animal: thread.name })}</title>
      <path d={stretch(frame, thread.from_s, Math.min(thread.opens_s, frame.to_s), at)} />
      {within(frame, thread.from_s) ? <circle cx={frame.down ? at : dot} cy={frame.down ? dot : at} r={4} /> : null}
      {gate === null ? null : <rect {...gate} className="ribbon-gate" />}
      {thread.readAt_s !== null && within(frame, thread.readAt_s) ? (
        <path d={cross(frame, thread.readAt_s, at - 8, at + 8)} className="ribbon-read" />
      ) : null}
    </g>
  );
}
