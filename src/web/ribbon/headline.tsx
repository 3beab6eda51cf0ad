import { inMinutes } from '../../core/route-plan/explain/explain.js';
import { bindsInWords } from '../../core/route-plan/search/bound.js';
import type { RoundPlan, Visit } from '../../core/route-plan/whole-round/round-shape.js';
import type { PlanAsk } from '../../log/plan/ask.js';
import { say } from '../../words/say.js';
import { Notice, State } from '../parts/state.js';
import { type Names, named } from './named.js';
import { teamName } from './picture.js';
import type { RoundPlanning } from './use-round-plan.js';

/** Per cent above what nobody could be quicker than, rounded up so that "within" is true. */
export const percentOf = (plan: RoundPlan): number =>
  Math.max(0, Math.ceil((plan.end / Math.max(1, plan.bound) - 1) * 100 - 1e-9));

/** The visit that ends last: its end is the round's. */
export function lastVisit(plan: RoundPlan): { readonly team: number; readonly visit: Visit } | null {
  const team = plan.teams.findIndex((one) => one.end === plan.end);
  const visit = plan.teams[team]?.visits.at(-1);
  return visit === undefined ? null : { team, visit };
}

/** How good the plan is, what sets its end, and for whom there is no time. */
export function Headline({ planning, names, zero_ms }: { planning: RoundPlanning; names: Names; zero_ms: number }) {
  const { ask, plan, planned } = planning;
  if (ask === null) return null;
  if (planned.state === 'failed') return <Notice tone="stop">{say('ribbon.failed')}</Notice>;
  const left = planned.answer?.left ?? [];
  const unit = ask.round.sections[0]?.section.unitSeconds ?? 30;
  return (
    <div className="stack tight">
      {planned.answer === null ? <p>{say('ribbon.working')}</p> : null}
      {planned.answer !== null && plan === null && left.length === 0 ? (
        <Notice tone="stop">{say('plan.none')}</Notice>
      ) : null}
      {planned.answer !== null && plan === null && left.length > 0 ? (
        <Notice tone="stop">{say('plan.shift-too-short')}</Notice>
      ) : null}
      {plan === null ? null : <HowGood ask={ask} plan={plan} unit={unit} zero_ms={zero_ms} names={names} />}
      {planned.state === 'working' && planned.answer !== null ? (
        <p className="soft small">{say('ribbon.improving')}</p>
      ) : null}
      {left.length === 0 ? null : (
        <Notice tone="attention">
          <b>{say('ribbon.left', { count: left.length })}</b>
          <ul className="plain">
            {left.map((one) => (
              <li key={one.animal}>
                {one.overdueDays > 0
                  ? say('plan.left.overdue', {
                      animal: names(one.animal),
                      days: one.overdueDays,
                      minutes: inMinutes(one.needs, unit),
                    })
                  : say('plan.left.due', { animal: names(one.animal), minutes: inMinutes(one.needs, unit) })}
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {ask.problems.map((problem) => (
        <Notice key={`${problem.say} ${JSON.stringify(problem.with)}`} tone="attention">
          {say(named(problem, names))}
        </Notice>
      ))}
    </div>
  );
}

function HowGood({
  ask,
  plan,
  unit,
  zero_ms,
  names,
}: {
  ask: PlanAsk;
  plan: RoundPlan;
  unit: number;
  zero_ms: number;
  names: Names;
}) {
  const last = lastVisit(plan);
  const percent = percentOf(plan);
  const instant = (units: number) => ({ instant: new Date(zero_ms + units * unit * 1000).toISOString() });
  const testCount = plan.teams.reduce((sum, team) => sum + team.visits.reduce((n, visit) => n + tests(visit), 0), 0);
  const animals = new Set(plan.teams.flatMap((team) => team.visits.flatMap((visit) => handled(visit))));
  return (
    <>
      <p>
        <b>
          {say('ribbon.summary', {
            from: instant(0),
            to: instant(plan.end),
            teams: plan.teams.length,
            animals: animals.size,
            tests: testCount,
          })}
        </b>
      </p>
      <p>
        {percent === 0 ? say('ribbon.shortest') : say('plan.gap', { percent })}{' '}
        {say('ribbon.bound', { minutes: inMinutes(plan.bound, unit) })}{' '}
        {testCount === 0 ? null : say('ribbon.safe', { times: oneDecimal(ask.rho) })}
      </p>
      {last === null ? null : (
        <p>
          {say('ribbon.end-set-by', {
            section: names(last.visit.section),
            team: plan.teams.length > 1 ? teamName(last.team) : 'none',
          })}{' '}
          {say(named(bindsInWords(last.visit.plan.bounds), names))}
        </p>
      )}
      <p>
        <KitsOut ask={ask} zero_ms={zero_ms} />
      </p>
    </>
  );
}

const oneDecimal = (value: number): number => Math.round(value * 10) / 10;
const handled = (visit: Visit): string[] =>
  visit.plan.steps.flatMap((step) => (step.is === 'handling' ? [step.animal ?? ''] : []));
const tests = (visit: Visit): number => visit.plan.steps.filter((step) => step.is === 'start-test').length;

/** When the tests have to leave the cold, and whether that time has come. */
export function KitsOut({ ask, zero_ms }: { ask: PlanAsk; zero_ms: number }) {
  const { wanted, out, takeOut_s } = ask.kits;
  if (wanted === 0) return null;
  if (takeOut_s === null) return <State tone="done">{say('ribbon.kits.out', { count: wanted })}</State>;
  return (
    <State tone="attention">
      {say('ribbon.kits.take-out', {
        count: wanted - out,
        at: { instant: new Date(zero_ms + takeOut_s * 1000).toISOString() },
      })}
    </State>
  );
}
