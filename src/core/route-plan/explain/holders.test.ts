import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../../test/support/plan-checker.js';
import { madeSection } from '../../../../test/support/plan-families.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../model/budget.js';
import { Instance, type Step, stepName } from '../model/instance.js';
import { atStart } from '../model/run-state.js';
import { replan } from '../replay/replan.js';
import { planSection } from '../search/search.js';
import { savings, withHolders } from './savings.js';

const apart = (section: Instance, holders: 1 | 2): Instance => Instance.parse({ ...section, holders });
const rested = (section: Instance) => planSection(section, { rho: 1, keepGoing: atMost(400) });

/** Rules of people counted apart, written without the planner: the treater, the holders and whose animal is out. */
function faultsOf(section: Instance, steps: readonly Step[]): string[] {
  const faults: string[] = [];
  const sorted = [...steps].sort((a, b) => a.start - b.start);
  let busy = 0;
  for (const step of sorted) {
    if (step.start < busy) faults.push(`the treater does two things at ${step.start}`);
    busy = Math.max(busy, step.start + step.duration);
  }
  const held = sorted.flatMap((step) => {
    if (step.fetchFrom === undefined) return [];
    const own = sorted.filter((one) => one.is === 'handling' && one.animal === step.animal);
    if (step.start - step.fetchFrom < section.fetch) faults.push(`${step.animal} is fetched in no time`);
    return [{ from: step.fetchFrom, to: Math.max(...own.map((one) => one.start + one.duration)) }];
  });
  for (const one of held) {
    const together = held.filter((other) => other.from <= one.from && one.from < other.to).length;
    if (together > (section.holders ?? 1)) faults.push(`${together} animals are with ${section.holders} holders`);
  }
  const visits = section.litters.flatMap((litter) => litter.animals).length;
  if (held.length !== visits) faults.push(`${held.length} of ${visits} animals are fetched`);
  return faults;
}

describe('treater and holders counted apart. Verifies: PLAN-R17', () => {
  const text = 'Ada:draw5,chip3 Bo:oral2,topical1 | Cleo:draw4,oral1 Dot:chip2 Eve:oral3';

  it('keeps each to one thing at a time, with the animals fetched beside the treater', () => {
    for (const holders of [1, 2] as const) {
      for (const rho of [1, 2]) {
        const section = apart(sectionOf(text), holders);
        const plan = planSection(section, { rho, keepGoing: atMost(100) });
        expect(faultsOf(section, plan?.steps ?? [])).toEqual([]);
        expect(plan?.end).toBeGreaterThanOrEqual(plan?.bounds.best ?? 0);
      }
    }
  });

  // With the checker that shares nothing with the planner, on sections of every family.
  it('keeps every rule and its bound, with the part in which both make sure of the animal. Verifies: PLAN-R22', () => {
    for (const family of ['mixed', 'alltest', 'now', 'limit2', 'warm', 'exact', 'wide'] as const) {
      for (const tests of [2, 5, 8]) {
        const section = Instance.parse({ ...madeSection(family, tests, 71 + tests), holders: 1, confirm: 1 });
        for (const rho of [1, 2]) {
          const plan = planSection(section, { rho, keepGoing: atMost(120) });
          const schedule = (plan?.steps ?? []).map((step) => ({ ...step, op: stepName(step) }));
          const { faults, end } = checkPlan(section, schedule);
          expect({ family, tests, faults }).toEqual({ family, tests, faults: [] });
          expect(end).toBe(plan?.end);
          expect(plan?.end).toBeGreaterThanOrEqual(plan?.bounds.best ?? 0);
          const moved = schedule.map((one) => (one.fetchFrom === undefined ? one : { ...one, start: one.start - 1 }));
          expect(checkPlan(section, moved).faults).not.toEqual([]);
        }
      }
    }
  });

  it('counts the ways that one holder has to go into what nobody can beat', () => {
    // Twelve animals without a test: every way is waited for, and the plan is known to be the shortest.
    const plain = apart(sectionOf(Array.from({ length: 12 }, (_, i) => `A${i}:oral2`).join(' ')), 1);
    const plan = rested(plain);
    expect(plan).toMatchObject({ end: 2 + 12 * (2 + 2), shortest: true });
    expect(plan?.bounds.work).toBe(2 + 12 * (2 + 2));
  });

  it('is never longer than the team as one, nor with a second holder than with one', () => {
    for (const shape of [text, 'Ada:oral2 Bo:oral2 Cleo:oral2', 'Ada:draw5 Bo:draw5', 'Ada:draw6,chip3']) {
      const [team, one, two] = [sectionOf(shape), apart(sectionOf(shape), 1), apart(sectionOf(shape), 2)].map(
        (section) => rested(section)?.end ?? 0,
      );
      expect(one).toBeLessThanOrEqual(team ?? 0);
      expect(two).toBeLessThanOrEqual(one ?? 0);
    }
  });

  it('has one holder fetch only while the treater works alone, a second one while the pair works', () => {
    // Three animals without a test: nothing is done by the treater alone, so one holder saves nothing.
    const plain = 'Ada:oral2 Bo:oral2 Cleo:oral2';
    expect(rested(sectionOf(plain))?.end).toBe(2 + 3 * (2 + 2));
    expect(rested(apart(sectionOf(plain), 1))?.end).toBe(2 + 3 * (2 + 2));
    // A second one fetches Bo while Ada is treated, and the first one Cleo while Bo is.
    expect(rested(apart(sectionOf(plain), 2))?.end).toBe(2 + 2 + 3 * 2);
    // While Ada's test is started (2), the holder has put her back and brought Bo (2).
    const tested = sectionOf('Ada:draw5 Bo:oral4,oral4,oral4,oral4,oral4');
    expect(rested(tested)?.end).toBe(2 + (2 + 5) + 2 + (2 + 20) + 2);
    expect(rested(apart(tested, 1))?.end).toBe(2 + (2 + 5) + 2 + 20 + 2);
  });

  it('tells for every step whether it needs both or the treater alone', () => {
    const people = new Map(rested(sectionOf(text))?.steps.map((step) => [step.kind, step.people]));
    expect(Object.fromEntries(people)).toEqual({
      'glove-change': 1,
      draw: 2,
      chip: 2,
      oral: 1,
      topical: 1,
      'start-test': 1,
      read: 1,
    });
  });

  it('says what a second holder would save beyond what the first could do', () => {
    const section = sectionOf(text);
    const plan = planSection(section, { keepGoing: atMost(200) });
    const told = plan === null ? [] : savings(section, plan, { keepGoing: atMost(200) });
    const saved = (what: string): number => told.find((one) => one.what === what)?.saves ?? -1;
    expect(saved('apart')).toBeGreaterThanOrEqual(0);
    expect(saved('holder')).toBeGreaterThan(0);
    // At most every way but the first, and no way twice.
    expect(saved('apart') + saved('holder')).toBeLessThanOrEqual(5 * section.fetch + 2 * section.gloveChange);
    const two = apart(section, 2);
    const best = planSection(two, { keepGoing: atMost(200) });
    expect(savings(two, best as never, { keepGoing: () => false }).map((one) => one.what)).not.toContain('holder');
    const stop = { section, don: 0, doff: 0, cartDisinfection: 0 };
    const round = withHolders({ sections: [stop] } as never, 2);
    expect(round.sections[0]?.section.holders).toBe(2);
  });
});

describe('a partner called away. Verifies: PLAN-R18', () => {
  const away = (section: Instance, until: number) =>
    replan(section, [], {
      state: {
        ...atStart,
        now: 13,
        openLitter: 'L1',
        secondPersonFrom: until,
        animals: [{ id: 'Ada', done: 1, leave: 'nothing', sample: { is: 'waiting', since: 11 } }],
      },
    })?.plan.steps ?? [];

  it.each([undefined, 1, 2] as const)(
    'keeps what needs two waiting, and the treater goes on alone (holders %s)',
    (holders) => {
      const bare = sectionOf('Ada:draw5 Bo:oral2,chip2 Cleo:draw4 Dot:oral1');
      const steps = away(holders === undefined ? bare : apart(bare, holders), 43);
      const before = steps.filter((step) => step.start < 43);
      expect(before.length).toBeGreaterThan(2);
      expect(before.every((step) => step.people === 1)).toBe(true);
      // The blood is started and read in its window by the treater alone.
      const [start, read] = ['start-test', 'read'].map((kind) =>
        steps.find((one) => one.animal === 'Ada' && one.kind === kind),
      );
      expect(start?.start).toBeLessThanOrEqual(11 + 8);
      const lag = (read?.start ?? 0) - (start?.start ?? 0) - 2;
      expect(lag).toBeGreaterThanOrEqual(16);
      expect(lag).toBeLessThanOrEqual(18);
      expect(steps.filter((step) => step.people === 2).map((step) => step.start)).toSatisfy(
        (starts: number[]) => starts.length === 2 && starts.every((one) => one >= 43),
      );
    },
  );

  it('finishes nobody later than a partner who stays away would make it', () => {
    const section = sectionOf('Bo:chip2 Cleo:oral4 Dot:oral4');
    const steps = replan(section, [], { state: { ...atStart, secondPersonFrom: 14 } })?.plan.steps ?? [];
    // The two that need one person fill the time until the partner is back.
    expect(steps.find((step) => step.kind === 'chip')?.start).toBe(14);
    expect(steps.filter((step) => step.kind === 'oral').every((step) => step.start < 14)).toBe(true);
  });
});
