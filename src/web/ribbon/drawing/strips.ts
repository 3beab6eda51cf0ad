/** The ribbon cut to the width there is: so many pixels a minute, and from when to when each strip goes. */
export interface Strips {
  readonly perMinute: number;
  readonly strips: readonly { readonly from_s: number; readonly to_s: number }[];
}

/** Below so many pixels a minute names no longer fit into their blocks. */
const least = 9;
/** Above so many a short round would look like a long one. */
const most = 26;

/**
 * Across a wide screen: as large as fits, in one strip if it can be read, else in several below each other, all on one
 * scale and cut at whole five minutes, so that nothing ever scrolls sideways.
 */
export function stripsFor(from_s: number, to_s: number, width_px: number): Strips {
  const minutes = Math.max(1, (to_s - from_s) / 60);
  const fits = width_px / minutes;
  if (fits >= least) return { perMinute: Math.min(most, fits), strips: [{ from_s, to_s }] };
  const count = Math.ceil((minutes * least) / width_px);
  const each_s = Math.ceil(minutes / count / 5) * 300;
  const perMinute = width_px / (each_s / 60);
  const strips = [];
  for (let at = from_s; at < to_s; at += each_s) strips.push({ from_s: at, to_s: at + each_s });
  return { perMinute, strips };
}

/** Times to write on the scale: whole quarters of an hour, or five minutes when there is room. `zero_ms` as for people. */
export function marksFor(zero_ms: number, from_s: number, to_s: number, perMinute: number): number[] {
  const step_s = perMinute >= 16 ? 300 : 900;
  const first = Math.ceil((zero_ms / 1000 + from_s) / step_s) * step_s - zero_ms / 1000;
  const marks = [];
  for (let at = first; at <= to_s; at += step_s) marks.push(Math.round(at));
  return marks;
}
