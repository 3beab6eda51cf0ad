const space = '\u00a0';
const count = (figure: number, one: string): string => `${figure}${space}${one}${figure === 1 ? '' : 's'}`;

/**
 * An age in words from whole days. Under 2 weeks in days, under 26 weeks in weeks and days, under 2 years in full weeks,
 * then in years marked `about`: days alone cannot tell a birthday from the day before it.
 */
export function age(days: number): string {
  if (days < 0) return `${count(-days, 'day')} before birth`;
  if (days < 14) return count(days, 'day');
  const weeks = Math.floor(days / 7);
  const rest = days % 7;
  if (weeks < 26) return rest === 0 ? count(weeks, 'week') : `${count(weeks, 'week')} ${count(rest, 'day')}`;
  if (days < 730) return count(weeks, 'week');
  return `about ${count(Math.round(days / 365.25), 'year')}`;
}
