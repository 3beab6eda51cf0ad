import type { TestRun } from '../../core/animal/animal.js';
import { byOneClock } from '../../core/clocked.js';
import type { ScheduleId } from '../../core/ids.js';
import { secondsUntil } from '../../core/point-of-care/kit.js';
import type { LogRecord } from '../record.js';
import { kitTypeNamed } from '../views/blood-tests/test-runs.js';
import { effective } from '../views/effective.js';
import { type RoundView, roundOf } from '../views/round/round.js';
import type { World } from '../views/world.js';

/** An animal in hand, in seconds from the zero of the round. */
export interface HappenedBlock {
  readonly animal: string;
  readonly from_s: number;
  readonly to_s: number;
}

/** A test as it really ran; `readAt_s` null while it has not been read, and for good when it was given up. */
export interface HappenedTest {
  readonly animal: string;
  /** What it was run for: one draw may serve several at once. */
  readonly schedule: ScheduleId;
  readonly startedAt_s: number;
  readonly opens_s: number;
  readonly closes_s: number;
  readonly readAt_s: number | null;
  /** Null while it can still be read. */
  readonly inWindow: boolean | null;
}

export interface HappenedVisit {
  readonly section: string;
  readonly from_s: number;
  /** Null while the team is inside. */
  readonly to_s: number | null;
  readonly blocks: readonly HappenedBlock[];
  readonly tests: readonly HappenedTest[];
}

/** A record alone has no length; it is shown as long as this. */
const least_s = 30;

/** From when the times of a round are counted: when it was begun, else when it should begin. */
export const zeroOf = (view: RoundView): string =>
  view.facts.begunAt ?? view.facts.plan.startsAt ?? view.facts.plannedAt;

const beside: readonly string[] = ['test-started', 'test-read', 'test-abandoned', 'treatment-not-given'];

/** What a round's records tell of its course: who was in hand when, and how the tests ran. */
export function happenedOn(world: World, view: RoundView): HappenedVisit[] {
  const zero = zeroOf(view);
  const at = (instant: string): number => secondsUntil(zero, instant);
  const own: LogRecord[] = [];
  for (const stop of view.stops) {
    for (const { animal } of stop.animals) {
      const records = effective(world.bySubject.get(`animal:${animal.id}`) ?? []);
      own.push(...records.filter((record) => roundOf(record) === view.facts.id));
    }
  }
  own.sort((a, b) => (a.happenedAt < b.happenedAt ? -1 : a.happenedAt > b.happenedAt ? 1 : a.deviceSeq - b.deviceSeq));
  return view.facts.visits.map((visit): HappenedVisit => {
    const inside = own.filter(
      ({ happenedAt }) => happenedAt >= visit.enteredAt && (visit.leftAt === null || happenedAt <= visit.leftAt),
    );
    const blocks: { animal: string; from_s: number; to_s: number }[] = [];
    for (const record of inside.filter(({ kind }) => !beside.includes(kind))) {
      const animal = record.subject.slice('animal:'.length);
      const time = at(record.happenedAt);
      const last = blocks.at(-1);
      if (last?.animal === animal) last.to_s = Math.max(last.to_s, time);
      else blocks.push({ animal, from_s: Math.max(time - least_s, last?.to_s ?? at(visit.enteredAt)), to_s: time });
    }
    return {
      section: visit.section,
      from_s: at(visit.enteredAt),
      to_s: visit.leftAt === null ? null : at(visit.leftAt),
      blocks,
      tests: testsOf(world, view, visit, at),
    };
  });
}

type VisitFacts = RoundView['facts']['visits'][number];

/** A section may be entered twice: a test belongs to the visit in which it was started. */
function visitOf(view: RoundView, section: string, startedAt: string): VisitFacts | undefined {
  const visits = view.facts.visits.filter((one) => one.section === section);
  return visits.findLast((one) => one.enteredAt <= startedAt) ?? visits[0];
}

/** When a test was read, on the scale on which it was started, though another device read it; null while nobody has. */
function readAfter({ start, reading }: TestRun, started_s: number): number | null {
  if (start === null || reading === null) return null;
  const [from, to] = byOneClock(start, reading);
  return started_s + secondsUntil(from, to);
}

function testsOf(world: World, view: RoundView, visit: VisitFacts, at: (instant: string) => number): HappenedTest[] {
  const stop = view.stops.find((one) => one.section.id === visit.section);
  return (stop?.animals ?? []).flatMap(({ animal }) =>
    animal.runs.flatMap((run): HappenedTest[] => {
      const kit = kitTypeNamed(world.shelter, run.kitType);
      if (run.round !== view.facts.id || run.startedAt === null || kit === null) return [];
      if (visitOf(view, visit.section, run.startedAt) !== visit) return [];
      const started = at(run.startedAt);
      const givenUp = run.result === 'abandoned';
      const readAt = givenUp ? null : readAfter(run, started);
      const [opens, closes] = [started + kit.readOpens_s, started + kit.readCloses_s];
      return [
        {
          animal: animal.id,
          schedule: run.schedule,
          startedAt_s: started,
          opens_s: opens,
          closes_s: closes,
          readAt_s: readAt,
          inWindow: givenUp ? false : readAt === null ? null : readAt >= opens && readAt <= closes,
        },
      ];
    }),
  );
}
