/**
 * Plain words that headings are made of. A heading written in one go (`intakedate`, `animalname`) is taken apart only
 * when it is made of nothing but these. Common practice, no source.
 */
const pieces: ReadonlySet<string> = new Set(
  (
    'animal cat kitten pet shelter litter name species sex gender breed colour color coat age born birth day date time ' +
    'at of on in is to no id ids number code ref key type kind reason how status weight kg grams lb chip microchip ' +
    'intake arrival arrived admission received entry outcome left leaving departure exit release released adopted ' +
    'adoption transfer transferred reclaimed return returned back dead died death deceased euthanised euthanized ' +
    'euthanasia put sleep foster fostered location place section ward room kennel cage pen note notes comment comments ' +
    'neutered spayed altered collar mark markings was has'
  ).split(' '),
);

/** A word that is nothing but two and more of the pieces, as the fewest of them; any other word as it stands. */
export function takenApart(word: string): readonly string[] {
  if (word.length < 5 || pieces.has(word)) return [word];
  const best: (readonly string[] | undefined)[] = [[]];
  for (let end = 1; end <= word.length; end++) {
    for (let start = Math.max(0, end - 12); start < end; start++) {
      const before = best[start];
      if (before === undefined || !pieces.has(word.slice(start, end))) continue;
      if (before.length + 1 < (best[end]?.length ?? Number.POSITIVE_INFINITY)) {
        best[end] = [...before, word.slice(start, end)];
      }
    }
  }
  return best[word.length] ?? [word];
}
