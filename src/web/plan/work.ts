import { savedByHolders, withHolders } from '../../core/route-plan/explain/savings.js';
import { planRound } from '../../core/route-plan/whole-round/round.js';
import { peopleIn, type Round } from '../../core/route-plan/whole-round/round-shape.js';
import { planShift, teamsNeeded } from '../../core/route-plan/whole-round/shift.js';
import type { Alternative, PlanAnswer, PlanJob } from './messages.js';

/** Each alternative is planned for so long at most. */
const each_ms = 120;
const mostTeams = 6;

/** Work a job out: a first plan at once, the best within the budget, then what other choices would change. */
export function workOut(asked: PlanJob, now_ms: () => number, tell: (answer: PlanAnswer) => void): void {
  const { job, round, rho } = asked;
  try {
    const until = now_ms() + asked.budget_ms;
    const first = planShift(round, { rho, keepGoing: () => false });
    tell({ is: 'plan', job, best: false, ...first });
    const keepGoing = (): boolean => now_ms() < until;
    const found = first.plan === null && first.left.length === 0 ? first : planShift(round, { rho, keepGoing });
    // The search is anytime, so the longer one is never worse; but only a plan that is better may move people.
    const better = found.left.length <= first.left.length && found.plan !== null ? found : first;
    tell({ is: 'plan', job, best: true, ...better });
    const whole = better.left.length === 0 ? better.plan : planRound(round, { rho, keepGoing: () => false });
    if (whole === null) return;
    tell({
      is: 'advice',
      job,
      alternatives: alternatives(round, rho, whole.end, now_ms),
      ...(round.shift === null ? {} : { teamsNeeded: teamsNeeded(round, mostTeams, { rho, keepGoing: () => false }) }),
    });
  } catch (error) {
    tell({ is: 'failed', job, message: error instanceof Error ? error.message : String(error) });
  }
}

function alternatives(round: Round, rho: number, end: number, now_ms: () => number): Alternative[] {
  const found: Alternative[] = [];
  const endOf = (changed: Round): number | null => {
    const until = now_ms() + each_ms;
    return planRound({ ...changed, shift: null }, { rho, keepGoing: () => now_ms() < until })?.end ?? null;
  };
  const put = (id: string, changed: Round): void => {
    const other = endOf(changed);
    if (other !== null) found.push({ id, by: other - end });
  };
  const sections = (change: (one: Round['sections'][number]['section']) => Partial<typeof one>): Round => ({
    ...round,
    sections: round.sections.map((stop) => ({ ...stop, section: { ...stop.section, ...change(stop.section) } })),
  });
  const litters = round.sections.reduce((sum, { section }) => sum + section.litters.length, 0);
  if (litters > round.teams) put('team', { ...round, teams: round.teams + 1 });
  const own = round.sections[0]?.section;
  if (Array.from({ length: round.teams }, (_, team) => peopleIn(round, team)).includes(2)) {
    const saved = savedByHolders(end, own?.holders, (holders) => endOf(withHolders(round, holders)) ?? end);
    if (saved.apart !== null) found.push({ id: 'apart-yes', by: -saved.apart });
    if (saved.holder !== null) found.push({ id: 'holder', by: -saved.holder });
    if (own?.holders !== undefined) put('apart-no', withHolders(round, null));
  }
  const tests = round.sections.some(({ section }) =>
    section.litters.some((litter) => litter.animals.some((animal) => animal.tested)),
  );
  if (!tests) return found;
  for (const runningLimit of [1, 2, 3]) {
    if (own?.test.runningLimit !== runningLimit)
      put(
        `limit-${runningLimit}`,
        sections((one) => ({ test: { ...one.test, runningLimit } })),
      );
  }
  for (const minutes of [0, 4, 10]) {
    const hold = Math.floor((minutes * 60) / (own?.unitSeconds ?? 30));
    if (own?.test.sampleHoldMax !== hold)
      put(
        `hold-${minutes}`,
        sections((one) => ({ test: { ...one.test, sampleHoldMax: hold } })),
      );
  }
  put(
    own?.splitVisitAllowed === true ? 'put-back-no' : 'put-back-yes',
    sections((one) => ({ splitVisitAllowed: !one.splitVisitAllowed })),
  );
  if ((round.kitWarmUp ?? 0) > 0) put('kits', { ...round, kitWarmUp: 0 });
  return found;
}
