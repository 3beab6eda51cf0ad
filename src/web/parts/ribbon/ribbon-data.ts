import type { SectionRank } from '../../../core/biosecurity/section.js';
import { endOf, type Step } from '../../../core/round/plan/instance.js';

export type BlockState = 'ahead' | 'done' | 'not-done';

/** An animal in hand. All times in seconds from the zero of the ribbon. */
export interface RibbonBlock {
  readonly animal: string;
  readonly name: string;
  readonly from_s: number;
  readonly to_s: number;
  readonly state: BlockState;
}

/** A test from its start to the end of its read window, and its reading. */
export interface RibbonThread {
  readonly animal: string;
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
  /** Seconds after a start at which the window of the section's kits opens and closes. */
  readonly window: Window;
  readonly nameOf: (animal: string) => string;
}

/** What a planned visit looks like: animals in hand, gloves, and a thread for every test that is started in it. */
export function partsOfPlan(
  planned: Planned,
): Pick<RibbonSection, 'gloves' | 'blocks' | 'threads'> & { end_s: number } {
  const { inside_s, unitSeconds, nameOf } = planned;
  const at = (units: number): number => inside_s + units * unitSeconds;
  const steps = [...planned.steps].sort((a, b) => a.start - b.start);
  const blocks: { animal: string; name: string; from_s: number; to_s: number; state: BlockState }[] = [];
  for (const step of steps) {
    if (step.is !== 'handling' || step.animal === null) continue;
    const last = blocks.at(-1);
    const to_s = at(step.start + step.duration);
    if (last?.animal === step.animal) last.to_s = to_s;
    else blocks.push({ animal: step.animal, name: nameOf(step.animal), from_s: at(step.start), to_s, state: 'ahead' });
  }
  const threads = steps
    .filter((step) => step.is === 'start-test')
    .map((step): Omit<RibbonThread, 'row'> => {
      const from_s = at(step.start + step.duration);
      const reading = steps.find((one) => one.is === 'reading' && one.animal === step.animal && one.kit === step.kit);
      return {
        animal: step.animal ?? '',
        name: nameOf(step.animal ?? ''),
        from_s,
        opens_s: from_s + planned.window.opens_s,
        closes_s: from_s + planned.window.closes_s,
        readAt_s: reading === undefined ? null : at(reading.start),
        state: 'ahead',
      };
    });
  return {
    gloves: steps
      .filter((step) => step.is === 'gloves')
      .map((step) => ({ from_s: at(step.start), to_s: at(step.start + step.duration) })),
    blocks,
    threads: inRows(threads),
    end_s: at(endOf(steps)),
  };
}

/** Each thread in the first row that is free again; a thread takes its row to the end of its window. */
export function inRows(threads: readonly Omit<RibbonThread, 'row'>[]): RibbonThread[] {
  const free: number[] = [];
  return [...threads]
    .sort((a, b) => a.from_s - b.from_s)
    .map((thread) => {
      const found = free.findIndex((until) => until <= thread.from_s);
      const row = found < 0 ? free.length : found;
      free[row] = thread.closes_s + 60;
      return { ...thread, row };
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
