/** A whole number of pieces as typed, up to 100 000; null for anything else. Never part of what was typed. */
export function readCount(text: string): number | null {
  const plain = text.trim();
  if (!/^\d{1,6}$/.test(plain)) return null;
  const count = Number(plain);
  return count <= 100_000 ? count : null;
}
