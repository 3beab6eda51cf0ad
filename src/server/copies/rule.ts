/** Hours before the newest copy in which all are kept, then days of which one is kept each, then months. Ours, no source. */
const all_h = 48;
const days = 30;
const months = 12;

const name = /^roundhand-(\d{4})-(\d\d)-(\d\d)-(\d\d)-(\d\d)-(\d\d)\.tar(\.age)?$/;

/** Name of a copy by when it was made (UTC ISO text); `.age` when it is sealed. */
export const copyName = (at: string, sealed: boolean): string =>
  `roundhand-${at.slice(0, 19).replace(/[:T]/g, '-')}.tar${sealed ? '.age' : ''}`;

/** When a copy was made, by its name; null for a file that is none of ours. */
export function copyAt(file: string): string | null {
  const found = name.exec(file);
  if (found === null) return null;
  const [, year, month, day, hour, minute, second] = found;
  return `${year}-${month}-${day}T${hour}:${minute}:${second}.000Z`;
}

/**
 * When the newest of some copies was made; null when there is none. One from the future was made before the clock was set
 * back: it says nothing of how old the newest is.
 */
export const newestCopy = (files: readonly string[], now: string): string | null =>
  files
    .flatMap((file) => copyAt(file) ?? [])
    .filter((at) => at <= now)
    .sort()
    .at(-1) ?? null;

/**
 * Which copies of a folder may go: all are kept of the last two days, then the newest of each day (UTC) for 30 days, then
 * the newest of each month for a year. It is counted from the newest copy, so that nothing goes while none is made. What is
 * not called like a copy is never named here.
 */
export function copiesToDrop(files: readonly string[]): readonly string[] {
  const copies = files
    .flatMap((file) => {
      const at = copyAt(file);
      return at === null ? [] : [{ file, at }];
    })
    .sort((one, other) => (one.at < other.at ? 1 : -1));
  const newest = Date.parse(copies[0]?.at ?? '');
  const held = { days: new Set<string>(), months: new Set<string>() };
  return copies.flatMap(({ file, at }) => {
    const hours = (newest - Date.parse(at)) / 3_600_000;
    const [day, month] = [at.slice(0, 10), at.slice(0, 7)];
    const first = { day: !held.days.has(day), month: !held.months.has(month) };
    held.days.add(day);
    held.months.add(month);
    const kept = hours <= all_h || (first.day && hours <= days * 24) || (first.month && held.months.size <= months + 1);
    return kept ? [] : [file];
  });
}
