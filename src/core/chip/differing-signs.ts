/** Places, counted from 1, at which two numbers differ; what one has more than the other differs too. */
export function differingSigns(one: string, other: string): number[] {
  const longest = Math.max(one.length, other.length);
  return Array.from({ length: longest }, (_, at) => at + 1).filter((place) => one[place - 1] !== other[place - 1]);
}
