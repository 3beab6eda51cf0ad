import { describe, expect, it } from 'vitest';
import { roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { usualSettings } from '../../core/route-plan/model/settings.js';
import { planRound } from '../../core/route-plan/whole-round/round.js';
import { prepareRound } from '../prepare/prepare.js';
import { askFor, type PlanChoice } from './ask.js';

function asked(by: Partial<PlanChoice>, moved: readonly string[] = []) {
  const log = roundLog({});
  for (const animal of moved)
    log.one('animal-moved', `animal:${animal}`, { section: 'quarantine', kennel: '' } as never, when('09:00'));
  const { world } = viewOf(log);
  const prepared = prepareRound(world, ['nursery', 'quarantine'] as never, when('13:00'));
  const choice: PlanChoice = {
    startsAt: when('13:30'),
    endsAt: null,
    people: [2],
    settings: usualSettings,
    ownTeam: [],
    ...by,
  };
  const ask = askFor(world, prepared, choice, when('13:00'));
  if (ask === null) throw new Error('nothing is due');
  const ops = ask.round.sections.flatMap(({ section }) =>
    section.litters.flatMap((litter) => litter.animals.flatMap((one) => one.ops.map((op) => op.kind))),
  );
  return { ask, ops, said: ask.problems.map((one) => one.say) };
}

describe('a preparation for people who work alone. Verifies: PLAN-R21', () => {
  it('has no draw and no chip, and says for whom they wait', () => {
    const two = asked({});
    expect(two.ops).toContain('draw');
    expect(two.said).not.toContain('plan.alone');
    const one = asked({ people: [1] });
    expect(one.ops.length).toBeGreaterThan(0);
    expect(one.ops).not.toContain('draw');
    expect(one.ops).not.toContain('chip');
    expect(one.ask.kits.wanted).toBe(0);
    const told = one.ask.problems.find(({ say }) => say === 'plan.alone');
    expect(told?.with).toEqual({ animals: { list: ['kit-1', 'kit-2', 'kit-3'] } });
    expect(planRound(one.ask.round, { keepGoing: () => false })?.teams).toHaveLength(1);
    // With a team of two beside it, what needs two is theirs.
    expect(asked({ people: [1, 2] }).ops).toEqual(two.ops);
  });
});

describe('a section with a team of its own. Verifies: PLAN-R23', () => {
  it('is told to the planner, or it is said how many teams that needs', () => {
    const enough = asked({ people: [2, 2], ownTeam: ['quarantine' as never] }, ['kit-3']);
    expect(enough.ask.round.sections.map((one) => [one.section.id, one.ownTeam])).toEqual([
      ['nursery', undefined],
      ['quarantine', true],
    ]);
    const few = asked({ people: [2], ownTeam: ['quarantine' as never] }, ['kit-3']);
    expect(few.ask.problems).toContainEqual({ say: 'plan.own-team', with: { count: 2 } });
    expect(planRound(few.ask.round, { keepGoing: () => false })).not.toBeNull();
  });
});
