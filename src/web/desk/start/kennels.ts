/**
 * Kennels as people write them: `1-6, 8, A1`. A range of whole numbers is written out (at most 100); everything else is
 * text and stays as typed, zeros in front included.
 */
export function readKennels(text: string): string[] {
  const kennels = text
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .flatMap(rangeOf);
  return [...new Set(kennels)];
}

function rangeOf(part: string): string[] {
  const range = /^([A-Za-z]*)(\d{1,3})\s*[-–]\s*\1?(\d{1,3})$/.exec(part);
  if (range === null) return [part.slice(0, 20)];
  const [, letters = '', from = '', to = ''] = range;
  const count = Number(to) - Number(from) + 1;
  if (count < 1 || count > 100) return [part.slice(0, 20)];
  const width = from.startsWith('0') ? from.length : 0;
  return Array.from({ length: count }, (_, index) => letters + String(Number(from) + index).padStart(width, '0'));
}
