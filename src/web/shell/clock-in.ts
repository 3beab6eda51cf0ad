const formats = new Map<string, Intl.DateTimeFormat>();

/** Wall time of an instant in a zone, `14:07`. */
export function clockIn(zone: string, ms: number): string {
  const format =
    formats.get(zone) ??
    new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  formats.set(zone, format);
  return format.format(ms);
}
