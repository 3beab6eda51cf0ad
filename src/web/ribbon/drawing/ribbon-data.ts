import type { SectionRank } from '../../../core/biosecurity/section.js';
import { endOf, type Step } from '../../../core/route-plan/model/instance.js';
import type { Stand } from '../../../log/bedside/stand.js';
import { standWords } from '../../../told/stand-words.js';
import { say } from '../../../words/say.js';

/** `under`: begun, a test runs or something is still to do. `look`: neither done nor left, somebody has to look at it. */
export type BlockState = 'ahead' | 'under' | 'look' | 'not-done' | 'done';

/** An animal in hand. All times in seconds from the zero of the ribbon. */
export interface RibbonBlock {
  readonly animal: string;
  readonly name: string;
  readonly from_s: number;
  readonly to_s: number;
  readonly state: BlockState;
  /** How the animal stands, where it has been in hand. */
  readonly stand?: Stand;
}

/** A block in words: whose it is, and how the animal stands. */
export const blockInWords = ({ name, stand }: Pick<RibbonBlock, 'name' | 'stand'>): string =>
  stand === undefined ? name : say('ribbon.block', { animal: name, stand: standWords(stand) });

/** A holder on the way to fetch an animal; `to_s` is when the treater takes over. */
export interface RibbonWay {
  readonly animal: string;
  readonly name: string;
  readonly from_s: number;
  readonly to_s: number;
  /** Ways that overlap, where there are two holders, lie in different rows. */
  readonly row: number;
}

/** A test from its start to the end of its read window, and its reading. */
export interface RibbonThread {
  readonly animal: string;
  /** The animal, with the test where it has several. */
  readonly name: string;
  readonly from_s: number;
  readonly opens_s: number;
  readonly closes_s: number;
  /** Planned or real; null while it is running and nothing is planned. */
  readonly readAt_s: number | null;
  readonly state: 'ahead' | 'running' | 'read' | 'missed';
  /** Threads that overlap lie in different rows. */
  readonly row: number;
}

export interface RibbonSpan {
  readonly from_s: number;
  readonly to_s: number;
}

export interface RibbonSection {
  readonly id: string;
  readonly name: string;
  readonly rank: SectionRank;
  /** Walking there and putting on: `start_s` to `inside_s`. Taking off and wiping down: `work_s` to `end_s`. */
  readonly start_s: number;
  readonly inside_s: number;
  readonly work_s: number;
  readonly end_s: number;
  readonly gloves: readonly RibbonSpan[];
  readonly blocks: readonly RibbonBlock[];
  readonly ways: readonly RibbonWay[];
  readonly threads: readonly RibbonThread[];
}

export interface RibbonLane {
  readonly name: string;
  readonly sections: readonly RibbonSection[];
}

export interface RibbonPicture {
  /** Milliseconds since 1970 of second 0. */
  readonly zero_ms: number;
  readonly lanes: readonly RibbonLane[];
}

export interface Window {
  readonly opens_s: number;
  readonly closes_s: number;
}

interface Planned {
  readonly steps: readonly Step[];
  readonly inside_s: number;
  readonly unitSeconds: number;
  /** Seconds after a start at which the window of a kit opens and closes; no kit: that of the animal's only test. */
  readonly windowOf: (kit: string | undefined, animal: string) => Window;
  readonly nameOf: (id: string) => string;
}

/** What a planned visit looks like: animals in hand, ways to them, gloves, a thread for every test started in it. */
export function partsOfPlan(
  planned: Planned,
): Pick<RibbonSection, 'gloves' | 'blocks' | 'ways' | 'threads'> & { end_s: number } {
  const { inside_s, unitSeconds, nameOf } = planned;
  const at = (units: number): number => inside_s + units * unitSeconds;
  const steps = [...planned.steps].sort((a, b) => a.start - b.start);
  const blocks: { animal: string; name: string; from_s: number; to_s: number; state: BlockState }[] = [];
  for (const step of steps) {
    if (step.is !== 'handling' || step.animal === null) continue;
    const last = blocks.at(-1);
    const to_s = at(step.start + step.duration);
    // Whoever is fetched was not in hand before.
    if (last?.animal === step.animal && step.fetchFrom === undefined) last.to_s = to_s;
    else blocks.push({ animal: step.animal, name: nameOf(step.animal), from_s: at(step.start), to_s, state: 'ahead' });
  }
  const ways = steps.flatMap((step): Omit<RibbonWay, 'row'>[] => {
    if (step.animal === null || step.fetchFrom === undefined || step.fetchFrom >= step.start) return [];
    const { animal } = step;
    return [{ animal, name: nameOf(animal), from_s: at(step.fetchFrom), to_s: at(step.start) }];
  });
  const threads = steps
    .filter((step) => step.is === 'start-test')
    .map((step): Omit<RibbonThread, 'row'> => {
      const from_s = at(step.start + step.duration);
      const reading = steps.find((one) => one.is === 'reading' && one.animal === step.animal && one.kit === step.kit);
      const animal = step.animal ?? '';
      const window = planned.windowOf(step.kit, animal);
      return {
        animal,
        name: step.kit === undefined ? nameOf(animal) : testIn(nameOf(animal), nameOf(step.kit)),
        from_s,
        opens_s: from_s + window.opens_s,
        closes_s: from_s + window.closes_s,
        readAt_s: reading === undefined ? null : at(reading.start),
        state: 'ahead',
      };
    });
  return {
    gloves: steps
      .filter((step) => step.is === 'gloves')
      .map((step) => ({ from_s: at(step.start), to_s: at(step.start + step.duration) })),
    blocks,
    ways: apart(ways, ({ to_s }) => to_s),
    threads: inRows(threads),
    end_s: at(endOf(steps)),
  };
}

/** Each thread in the first row that is free again; a thread takes its row to the end of its window. */
export const inRows = (threads: readonly Omit<RibbonThread, 'row'>[]): RibbonThread[] =>
  apart(threads, (thread) => thread.closes_s + 60);

/** How one of several tests of an animal is called. */
export const testIn = (animal: string, test: string): string => say('ribbon.thread.one-of', { animal, test });

function apart<Line extends { readonly from_s: number }>(
  lines: readonly Line[],
  until: (line: Line) => number,
): (Line & { readonly row: number })[] {
  const free: number[] = [];
  return [...lines]
    .sort((a, b) => a.from_s - b.from_s)
    .map((line) => {
      const found = free.findIndex((freeFrom) => freeFrom <= line.from_s);
      const row = found < 0 ? free.length : found;
      free[row] = until(line);
      return { ...line, row };
    });
}

export const startOf = (picture: RibbonPicture): number =>
  Math.min(0, ...picture.lanes.flatMap((lane) => lane.sections.map((section) => section.start_s)));

export const endOfPicture = (picture: RibbonPicture): number =>
  Math.max(
    60,
    ...picture.lanes.flatMap((lane) =>
      lane.sections.flatMap((section) => [section.end_s, ...section.threads.map((thread) => thread.closes_s)]),
    ),
  );
