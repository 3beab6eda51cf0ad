import type { Animal, IdentityMarks } from './animal.js';

export const markKinds = ['collar', 'coat', 'mark', 'photo'] as const;
export type MarkKind = (typeof markKinds)[number];

/** What people write where there is no mark; it tells nobody from anybody. */
const nothing =
  /^[\s.–—?-]*$|^(?:n\/?a|nil|unknown|unk|plain|nothing(?: special)?|no(?:ne|t)?(?: (?:marks?|known|yet|visible|noted|recorded|special|to be seen|to see|seen|found))*)[\s.]*$/i;

/** Whether a text in the place of a mark says that there is none. */
export const isNoMark = (text: string): boolean => nothing.test(text);

/** Identity marks on record, in the order in which they are compared. */
export const marksOf = ({ marks }: Pick<Animal, 'marks'>): MarkKind[] =>
  markKinds.filter((kind) => (kind === 'photo' ? marks.photo !== null : !isNoMark(marks[kind])));

/** Two marks at least; one alone does not tell litter mates apart. Ours. */
export const leastMarks = 2;

type Looks = Pick<Animal, 'id' | 'marks' | 'litter' | 'kennel' | 'section' | 'left'>;

/** Those who can be taken for it: litter mates, and who lives in the same kennel. */
export const neighboursOf = <A extends Looks>(animal: Looks, animals: Iterable<A>): A[] =>
  [...animals].filter(
    (other) =>
      other.id !== animal.id &&
      other.left === null &&
      ((animal.litter !== null && other.litter?.id === animal.litter.id) ||
        (animal.kennel !== '' && other.kennel === animal.kennel && other.section === animal.section)),
  );

/** Marks that none of its neighbours has too. */
export function tellingMarks(animal: Looks, animals: Iterable<Looks>): MarkKind[] {
  const neighbours = neighboursOf(animal, animals);
  return marksOf(animal).filter((kind) =>
    neighbours.every((other) => written(other.marks, kind) !== written(animal.marks, kind)),
  );
}

export const marksSuffice = (animal: Looks, animals: Iterable<Looks>): boolean =>
  tellingMarks(animal, animals).length >= leastMarks;

/** Two marks are the same when they are written the same; two photos when they are one picture. */
const written = (marks: IdentityMarks, kind: MarkKind): string =>
  kind === 'photo' ? (marks.photo?.full ?? '') : marks[kind].trim().toLowerCase().replace(/\s+/g, ' ');
