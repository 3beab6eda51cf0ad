import { say } from '../../../words/say.js';
import { along, type Frame, within } from './frame.js';
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
  const [begins, ends] = [within(frame, way.from_s), within(frame, way.to_s)];
  const from = along(frame, Math.max(way.from_s, frame.from_s));
  const to = along(frame, Math.min(way.to_s, frame.to_s)) + (ends ? 1 : 0);
  const [onward, aside] = frame.down ? ['V', 'H'] : ['H', 'V'];
  const point = (place: number, deep: number): string => (frame.down ? `${deep} ${place}` : `${place} ${deep}`);
  const tick = begins ? `M${point(from, at - 3)}${aside}${at + 3}` : '';
  const line = `M${point(from, at)}${onward}${to}${ends ? `${aside}${foot}` : ''}`;
  return (
    <g className="ribbon-fetch">
      <title>
        {say('ribbon.way', { animal: way.name, at: { instant: new Date(zero_ms + way.from_s * 1000).toISOString() } })}
      </title>
      <path d={`${tick}${line}`} />
    </g>
  );
}

/** What the thin line means; left out where there is none. */
export function WayKey({ picture }: { readonly picture: RibbonPicture }) {
  if (!picture.lanes.some((lane) => lane.sections.some((section) => section.ways.length > 0))) return null;
  return (
    <p className="soft small ribbon-key">
      <svg viewBox="0 0 36 12" width="36" height="12" aria-hidden="true" className="ribbon-fetch">
        <path d="M1 5V11M1 8H35V0" />
      </svg>{' '}
      {say('ribbon.way.key')}
    </p>
  );
}
