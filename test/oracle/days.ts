/** Days as whole numbers from 1 January 1970, by the calendar of the platform: no code of the project is used here. */
const length = 86_400_000;

export const numberOf = (text: string): number => Date.parse(`${text}T00:00:00Z`) / length;
export const textOf = (day: number): string => new Date(day * length).toISOString().slice(0, 10);

export interface Length {
  readonly years?: number | undefined;
  readonly months?: number | undefined;
  readonly weeks?: number | undefined;
  readonly days?: number | undefined;
}

/** Years and months first; a day that month does not have is the first of the next; then weeks and days. */
export function later(day: number, { years = 0, months = 0, weeks = 0, days = 0 }: Length): number {
  const from = new Date(day * length);
  const month = from.getUTCMonth() + months;
  const last = new Date(Date.UTC(from.getUTCFullYear() + years, month + 1, 0)).getUTCDate();
  const to =
    from.getUTCDate() > last
      ? Date.UTC(from.getUTCFullYear() + years, month + 1, 1)
      : Date.UTC(from.getUTCFullYear() + years, month, from.getUTCDate());
  return to / length + weeks * 7 + days;
}

/** The first day from one on for which something is so, looked for day by day; null when none is within 40 years. */
export function firstDay(from: number, isSo: (day: number) => boolean): number | null {
  for (let day = from; day < from + 14_610; day += 1) if (isSo(day)) return day;
  return null;
}
