/**
 * The table of survivors on docs/mutation.md. A row is told by its file, the function it is in, the code, the change, and
 * which of several alike in that function it is: lines may move, and a reason stays with its own row.
 */
const [from, to] = ['<!-- survivors: begin -->', '<!-- survivors: end -->'];
const head = ['| file | in | code | changed to | why no test notices |', '| --- | --- | --- | --- | --- |'];
/** What stands in the last column until somebody has looked. */
export const noReason = 'to be looked at';

const oneLine = (text) => {
  const flat = text.replace(/\s+/g, ' ').replaceAll('|', '\\|').replaceAll('`', "'");
  return flat.length > 90 ? `${flat.slice(0, 87).replace(/\\+$/, '')}...` : flat;
};
const fileOf = (mutant) => mutant.path.slice(mutant.path.lastIndexOf('/') + 1);

/** The columns that tell a mutant from all others; `mutants` are all of the run, to see whether there are others alike. */
export function placeOf(mutant, mutants) {
  const isAlike = (one) =>
    one.path === mutant.path &&
    one.within === mutant.within &&
    oneLine(one.from) === oneLine(mutant.from) &&
    one.to === mutant.to;
  const alike = mutants.filter(isAlike);
  const nth = alike.length === 1 ? '' : ` (${alike.findIndex((one) => one.id === mutant.id) + 1} of ${alike.length})`;
  return `| ${fileOf(mutant)} | ${mutant.within} | \`${oneLine(mutant.from)}\` | ${oneLine(mutant.to)}${nth}`;
}

/** Reasons on a page by the place of their mutant. */
export function reasonsOf(page) {
  const table = page.slice(page.indexOf(from), page.indexOf(to));
  const rows = [...table.matchAll(/^(\| [\w-]+\.ts \| .*) \| (.*?) \|$/gm)];
  return new Map(rows.map(([, place, reason]) => [place, reason]));
}

/** The page with the survivors of a run and what it says at the top; reasons given before are kept, others are gone. */
export function pageWith(page, said, survivors, mutants) {
  const reasons = reasonsOf(page);
  const rows = survivors.map((one) => {
    const place = placeOf(one, mutants);
    return `${place} | ${reasons.get(place) ?? noReason} |`;
  });
  const table = [said, '', ...head, ...rows].join('\n');
  return `${page.slice(0, page.indexOf(from) + from.length)}\n${table}\n${page.slice(page.indexOf(to))}`;
}
