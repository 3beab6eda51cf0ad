import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../../test/support/plan-checker.js';
import { madeSection } from '../../../../test/support/plan-families.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../model/budget.js';
import { type Instance, stepName } from '../model/instance.js';
import { planRound } from './round.js';
import { Round, type RoundPlan } from './round-shape.js';
import { teamsForOwn } from './share.js';
import { planShift, teamsNeeded } from './shift.js';
import { partOf, planTeams } from './teams.js';

const quick = { keepGoing: atMost(400) };
const stop = (section: Instance) => ({ section, don: 4, doff: 4, cartDisinfection: 6 });

/** Sections with ids of their own. */
const sections = (count: number, tests: number): Instance[] =>
  Array.from({ length: count }, (_, s) => {
    const made = madeSection('mixed', tests, 500 + s);
    const litters = made.litters.map((litter) => ({
      id: `S${s}${litter.id}`,
      animals: litter.animals.map((animal) => ({ ...animal, id: `S${s}${animal.id}` })),
    }));
    return { ...made, id: `section-${s}`, litters };
  });

const seen = (plan: RoundPlan): string[] =>
  plan.teams.flatMap((team) =>
    team.visits.flatMap((visit) => visit.plan.steps.filter((step) => step.is === 'gloves').map((step) => step.litter)),
  );

describe('a whole round', () => {
  const round = Round.parse({ sections: sections(3, 3).map(stop) });

  it('adds up gowning, plan, taking off and wiping, section after section. Verifies: PLAN-R6', () => {
    const plan = planRound(round, quick);
    const visits = plan?.teams[0]?.visits ?? [];
    expect(visits.map((visit) => visit.section)).toEqual(['section-0', 'section-1', 'section-2']);
    let time = 0;
    for (const visit of visits) {
      expect(visit.start).toBe(time);
      expect(visit.inside).toBe(time + 4);
      expect(visit.end).toBe(visit.inside + visit.plan.end + 10);
      time = visit.end;
    }
    expect(plan?.end).toBe(time);
    expect(plan?.bound).toBeLessThanOrEqual(time);
  });

  it('gives a team of one no litter with work for two, and lets that team fetch itself. Verifies: PLAN-R21', () => {
    const apart = round.sections.map((one) => ({ ...one, section: { ...one.section, holders: 1 as const } }));
    const plain = {
      ...sectionOf('Zoe:oral2,injection2 Yva:oral3 | Xim:injection3,topical1'),
      id: 'plain',
      holders: 1 as const,
    };
    const stops = [...apart, stop(plain)];
    const mixed = { ...round, sections: stops, teams: 2, people: [1 as const, 2 as const] };
    const plan = planRound(mixed, quick);
    const [lone, pair] = (plan?.teams ?? []).map((team) => team.visits.flatMap((visit) => visit.plan.steps));
    expect(lone?.length).toBeGreaterThan(0);
    expect(lone?.every((step) => step.people === 1 && step.fetchFrom === undefined)).toBe(true);
    expect(pair?.some((step) => step.people === 2)).toBe(true);
    expect(pair?.some((step) => step.fetchFrom !== undefined)).toBe(true);
    expect(seen(plan as RoundPlan).sort()).toEqual(
      stops.flatMap((one) => one.section.litters.map((litter) => litter.id)).sort(),
    );
    expect(plan?.end).toBeGreaterThanOrEqual(plan?.bound ?? 0);
    // Two pairs are never slower, and nobody can do the work for two where everybody is alone.
    expect(planRound({ ...mixed, people: [] }, quick)?.end).toBeLessThanOrEqual(plan?.end ?? 0);
    expect(planRound({ ...mixed, people: [1, 1] }, quick)).toBeNull();
  });

  it('gives a section a team of its own, which goes nowhere else. Verifies: PLAN-R23', () => {
    const plain = stop({ ...sectionOf('Zoe:oral2 | Xim:injection3'), id: 'plain' });
    const stops = [plain, ...round.sections].map((one, i) => ({ ...one, ownTeam: i === 0 || i === 3 }));
    const apart = { ...round, sections: stops, teams: 3 };
    const plan = planRound(apart, quick);
    const routes = plan?.teams.map((team) => team.visits.map((visit) => visit.section).join(' '));
    expect(routes).toEqual(['section-0 section-1', 'plain', 'section-2']);
    expect(plan?.end).toBeGreaterThanOrEqual(plan?.bound ?? 0);
    // Where one person is enough, the one who works alone has it.
    const alone = planRound({ ...apart, people: [1, 2, 2] }, quick);
    expect(alone?.teams.map((team) => team.visits.map((visit) => visit.section).join(' '))).toEqual([
      'plain',
      'section-0 section-1',
      'section-2',
    ]);
    for (const teams of [1, 2]) expect(planRound({ ...apart, teams }, quick)).toBeNull();
    expect(planRound({ ...apart, people: [2, 1, 1] }, quick)).toBeNull();
    const onlyOwn = { ...round, sections: [{ ...plain, ownTeam: true }] };
    expect(planRound(onlyOwn, quick)).not.toBeNull();
    expect(teamsForOwn(stops)).toBe(3);
    expect(teamsForOwn(onlyOwn.sections)).toBe(1);
  });

  it('finds kits warmer in later sections. Verifies: PLAN-R6', () => {
    const cold = { ...round, kitWarmUp: 60 };
    const plan = planRound(cold, quick);
    const starts = (plan?.teams[0]?.visits ?? []).flatMap((visit) =>
      visit.plan.steps.filter((step) => step.is === 'start-test').map((step) => visit.inside + step.start),
    );
    expect(Math.min(...starts)).toBeGreaterThanOrEqual(60);
  });

  it('gives every litter to one team, each clean to dirty, and is shorter with more teams. Verifies: PLAN-R7', () => {
    const ends = [1, 2, 3].map((teams) => {
      const plan = planRound({ ...round, teams }, quick);
      if (plan === null) throw new Error('no plan');
      expect(seen(plan).sort()).toEqual(round.sections.flatMap((one) => one.section.litters.map((l) => l.id)).sort());
      for (const team of plan.teams) {
        const order = team.visits.map((visit) => visit.section);
        expect(order).toEqual([...order].sort());
        for (const visit of team.visits) {
          const whole = round.sections.find((one) => one.section.id === visit.section)?.section;
          if (whole === undefined) throw new Error('no section');
          const litters = whole.litters.filter((litter) => visit.litters.includes(litter.id));
          const timed = visit.plan.steps.map((step) => ({ ...step, op: stepName(step) }));
          expect(checkPlan({ ...whole, litters }, timed).faults).toEqual([]);
        }
      }
      expect(plan.end).toBeGreaterThanOrEqual(plan.bound);
      return plan.end;
    });
    expect(ends[1]).toBeLessThan((ends[0] ?? 0) * 0.65);
    expect(ends[2]).toBeLessThan(ends[1] ?? 0);
  });

  it('says how many teams a day needs. Verifies: PLAN-R7', () => {
    const one = planRound(round, quick)?.end ?? 0;
    expect(teamsNeeded({ ...round, shift: one }, 4, quick)).toBe(1);
    expect(teamsNeeded({ ...round, shift: one - 30 }, 4, quick)).toBe(2);
    expect(teamsNeeded({ ...round, shift: 20 }, 3, quick)).toBeNull();
    expect(teamsNeeded(round, 3, quick)).toBe(1);
  });
});

describe('two teams in one section', () => {
  it('deal the kits that are ready first in turn', () => {
    const section = { ...madeSection('mixed', 6, 31), kitReadyAt: [0, 10, 20, 30, 40, 50] };
    const halves = [partOf(section, [0]), partOf(section, section.litters.map((_, l) => l).slice(1))];
    const kits = halves.flatMap((half) => half.kitReadyAt ?? []);
    expect(
      halves.every(
        (half) =>
          (half.kitReadyAt ?? []).length === half.litters.flatMap((l) => l.animals).filter((a) => a.tested).length,
      ),
    ).toBe(true);
    expect(kits.length).toBe(6);
  });

  it('are not slower than one, and a team without litters has no plan. Verifies: PLAN-R7', () => {
    const single = sectionOf('Ada:draw5,oral1 Bo:oral2');
    const plan = planTeams(single, 2);
    expect(plan?.teams.map((team) => team.litters)).toEqual([['L1'], []]);
    expect(plan?.teams[1]?.plan).toBeNull();
    const large = madeSection('mixed', 16, 77);
    const [one, two] = [planTeams(large, 1, quick), planTeams(large, 2, quick)];
    expect(two?.end).toBeLessThan((one?.end ?? 0) * 0.65);
  });
});

describe('a shift that is too short', () => {
  const section = sectionOf('Ada+0:chip3,oral2 Bo+9:injection2 | Cleo+2:draw5,chip2 Dot+0:oral2 | Eve+30:draw4,oral1');
  const round = (shift: number | null) => Round.parse({ sections: [stop(section)], shift });

  it('leaves nothing when it is long enough or has no end', () => {
    expect(planShift(round(null)).left).toEqual([]);
    expect(planShift(round(1000)).left).toEqual([]);
  });

  it('does everything overdue first and says what each of the rest would need. Verifies: PLAN-R10', () => {
    const { plan, left } = planShift(round(60));
    expect(plan?.end).toBeLessThanOrEqual(60);
    const done = plan?.teams[0]?.visits.flatMap((visit) => visit.plan.steps.map((step) => step.animal)) ?? [];
    expect(done).toContain('Eve');
    expect(left.length).toBeGreaterThan(0);
    for (const one of left) {
      expect(one.needs).toBeGreaterThan(0);
      expect(done).not.toContain(one.animal);
    }
    const worst = Math.max(...left.map((one) => one.overdueDays));
    expect(worst).toBeLessThanOrEqual(2);
  });

  it('makes no plan when not even one fits', () => {
    expect(planShift(round(10))).toMatchObject({ plan: null, left: { length: 5 } });
  });
});
