import { say } from '../../../words/say.js';
import { along, type Frame, stretch, within } from './frame.js';
import type { RibbonPicture, RibbonWay } from './ribbon-data.js';

const row_px = 4;
/** More than two holders would need more rows than there is room for. */
const rows = 2;

/** A holder on the way: a thin line below the animals in hand, from a tick to the foot of the one that is fetched. */
export function Way({
  way,
  frame,
  foot,
  zero_ms,
}: {
  readonly way: RibbonWay;
  readonly frame: Frame;
  /** Where the animals in hand end across the time. */
  readonly foot: number;
  readonly zero_ms: number;
}) {
  if (way.to_s <= frame.from_s || way.from_s >= frame.to_s) return null;
  const at = foot + 4 + Math.min(way.row, rows - 1) * row_px;
  const tick = within(frame, way.from_s) ? upright(frame, along(frame, way.from_s), at - 3, at + 3) : '';
  const rise = within(frame, way.to_s) ? upright(frame, along(frame, way.to_s) + 1, foot, at) : '';
  return (
    <g className="ribbon-fetch">
      <title>
        {say('ribbon.way', { animal: way.name, at: { instant: new Date(zero_ms + way.from_s * 1000).toISOString() } })}
      </title>
      <path d={`${stretch(frame, way.from_s, way.to_s, at)}${tick}${rise}`} />
    </g>
  );
}

/** Across the time at one place along it. */
const upright = (frame: Frame, place: number, from: number, to: number): string =>
  frame.down ? `M${from} ${place}H${to}` : `M${place} ${from}V${to}`;

/** What the thin line means; left out where there is none. */
export function WayKey({ picture }: { readonly picture: RibbonPicture }) {
  if (!picture.lanes.some((lane) => lane.sections.some((section) => section.ways.length > 0))) return null;
  return (
    <p className="soft small ribbon-key">
      <svg viewBox="0 0 36 12" width="36" height="12" aria-hidden="true" className="ribbon-fetch">
        <path d="M1 9H35M1 6V12M35 9V0" />
      </svg>{' '}
      {say('ribbon.way.key')}
    </p>
  );
}
