import type { Animal } from '../../../core/animal/animal.js';
import type { RecordId } from '../../../core/ids.js';
import type { BodyInput, Kind } from '../../kinds/index.js';
import type { LogRecord } from '../../record.js';
import { effective } from '../effective.js';
import type { RoundFacts, Visit } from '../round-facts.js';
import type { World } from '../world.js';
import { groupOf } from './group.js';
import { type RoundView, roundOf, type SectionStop } from './round.js';

/** Fresh gloves are wanted before hands go on an animal. */
export interface GlovesWanted {
  readonly why: BodyInput<'gloves-changed'>['why'];
  /** The animal the hands come from; null where none was touched. */
  readonly from: Animal | null;
  readonly visit: Visit['record'] | null;
  /** Records of hands on animals since gloves were last fresh. */
  readonly after: readonly RecordId[];
}

/** Kinds that are written with hands on the animal. A chip in its pack and a test on the table are none. */
const handsOn: readonly Kind[] = [
  'animal-identified',
  'animal-weighed',
  'treatment-given',
  'sample-drawn',
  'chip-scanned',
  'chip-implanted',
  'observation-noted',
];

interface Touch {
  readonly record: LogRecord;
  readonly animal: Animal;
}

/**
 * Whether both people put on fresh gloves before this animal of the section: for the first one where the door did not
 * ask for them, between two litters (an animal of no litter is one of its own), after an animal with a reactive or faint
 * test, its reading included, and after one whose coat glowed under the lamp, or may have. Null while the gloves will do. What gloves have met is told by the records that a
 * change names, never by a clock. Pure.
 */
export function glovesBefore(world: World, view: RoundView, at: SectionStop, next: Animal): GlovesWanted | null {
  const visit = view.facts.visits.findLast((one) => one.section === at.section.id);
  if (visit === undefined) return null;
  const changes = view.facts.gloves.filter((one) => one.visit === visit.record);
  const met = new Set<string>(changes.flatMap((one) => one.after));
  const since = touchesIn(world, view, at, visit).filter(({ record }) => !met.has(record.id));
  const others = since.filter(({ animal }) => animal.id !== next.id);
  const wanted = (why: GlovesWanted['why'], from: Animal | null): GlovesWanted => ({
    why,
    from,
    visit: visit.record,
    after: since.map(({ record }) => record.id),
  });
  const reactive = others.findLast(({ animal }) => isReactive(animal));
  if (reactive !== undefined) return wanted('reactive', reactive.animal);
  const glowed = others.findLast(({ record }) => glows(record));
  if (glowed !== undefined) return wanted('lamp', glowed.animal);
  const other = others.findLast(({ animal }) => groupOf(animal) !== groupOf(next));
  if (other !== undefined) return wanted('litter', other.animal);
  const fresh = visit.worn.includes('wear.gloves') || changes.length > 0 || since.length > 0;
  return fresh ? null : wanted('first', null);
}

/** Pairs of fresh gloves that each person put on between animals; what two phones note of one change counts once. */
export function gloveChanges({ gloves }: RoundFacts): number {
  const counted: (typeof gloves)[number][] = [];
  for (const one of gloves) {
    const same = (other: (typeof gloves)[number]): boolean =>
      other.visit === one.visit &&
      (one.after.length === 0 ? other.after.length === 0 : one.after.some((id) => other.after.includes(id)));
    if (!counted.some(same)) counted.push(one);
  }
  return counted.length;
}

/** A faint mark is a mark: what was faint is handled as reactive until the medical team says otherwise. */
const isReactive = (animal: Animal): boolean =>
  animal.runs.some(
    (run) => run.result === 'reactive' || (run.readAt !== null && Object.values(run.seen).includes('faint')),
  );

/** Ringworm is caught by hand; whether it is that is not known yet. */
const glows = (record: LogRecord): boolean =>
  record.kind === 'observation-noted' && (record.body.answer === 'glow' || record.body.answer === 'unsure');

function touchesIn(world: World, view: RoundView, at: SectionStop, visit: Visit): Touch[] {
  const again = view.facts.visits.filter((one) => one.section === at.section.id).length > 1;
  const entered = world.bySubject.get(`round:${view.facts.id}`)?.find((record) => record.id === visit.record);
  return [...at.animals, ...at.asNeeded]
    .flatMap(({ animal }) =>
      effective(world.bySubject.get(`animal:${animal.id}`) ?? [])
        .filter((record) => roundOf(record) === view.facts.id && isTouch(record, animal))
        .filter((record) => !again || entered === undefined || isAfter(record, entered))
        .map((record): Touch => ({ record, animal })),
    )
    .sort((a, b) => (isAfter(a.record, b.record) ? 1 : -1));
}

const isTouch = (record: LogRecord, animal: Animal): boolean =>
  record.kind === 'test-read'
    ? isReactive(animal)
    : handsOn.includes(record.kind) && !(record.kind === 'chip-scanned' && record.body.target === 'pack');

/** By the device's own count, else by place in the log: what is not there yet is later. Clocks only break a tie. */
function isAfter(a: LogRecord, b: LogRecord): boolean {
  if (a.device === b.device) return a.deviceSeq > b.deviceSeq;
  const seqA = a.seq ?? Number.POSITIVE_INFINITY;
  const seqB = b.seq ?? Number.POSITIVE_INFINITY;
  if (seqA !== seqB) return seqA > seqB;
  return a.happenedAt === b.happenedAt ? a.id > b.id : a.happenedAt > b.happenedAt;
}
