/** Where a stretch of time and a depth in the lane lie on the picture: time goes across on a wide screen, down on a phone. */
export interface Frame {
  readonly down: boolean;
  readonly from_s: number;
  readonly to_s: number;
  readonly perMinute: number;
  /** Where second `from_s` lies along the time. */
  readonly along0: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const along = (frame: Frame, at_s: number): number =>
  round(frame.along0 + ((at_s - frame.from_s) / 60) * frame.perMinute);

/** Null when nothing of it is on this strip. */
export function boxOf(frame: Frame, from_s: number, to_s: number, depth: number, thick: number): Box | null {
  const [from, to] = [Math.max(from_s, frame.from_s), Math.min(to_s, frame.to_s)];
  if (to <= from) return null;
  const [a, b] = [along(frame, from), along(frame, to)];
  const long = Math.max(1, round(b - a));
  return frame.down ? { x: depth, y: a, width: thick, height: long } : { x: a, y: depth, width: long, height: thick };
}

/** A line at one moment over some depth, or along a stretch at one depth; as path data. */
export const cross = (frame: Frame, at_s: number, from: number, to: number): string => {
  const a = along(frame, at_s);
  return frame.down ? `M${from} ${a}H${to}` : `M${a} ${from}V${to}`;
};

export const stretch = (frame: Frame, from_s: number, to_s: number, depth: number): string => {
  const [a, b] = [along(frame, Math.max(from_s, frame.from_s)), along(frame, Math.min(to_s, frame.to_s))];
  return frame.down ? `M${depth} ${a}V${b}` : `M${a} ${depth}H${b}`;
};

export const within = (frame: Frame, at_s: number): boolean => at_s >= frame.from_s && at_s <= frame.to_s;

const round = (pixels: number): number => Math.round(pixels * 10) / 10;

/** As much of a name as fits, from three letters on; else nothing. */
export function shortName(name: string, room_px: number, letter_px: number): string {
  const letters = Math.floor(room_px / letter_px);
  if (name.length <= letters) return name;
  return letters >= 3 ? name.slice(0, letters) : '';
}

/** The moment that lies under a point along the time, the other way round than `along`. */
export const momentAt = (frame: Frame, at_px: number): number =>
  frame.from_s + ((at_px - frame.along0) / frame.perMinute) * 60;
