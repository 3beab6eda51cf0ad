import { explainPlan, inMinutes } from '../../core/route-plan/explain/explain.js';
import { roundDefaults } from '../../log/plan/settings.js';
import { say } from '../../words/say.js';
import type { Names } from './named.js';
import { named } from './named.js';
import { teamName } from './picture.js';
import type { RoundPlanning } from './use-round-plan.js';

/** What one more team or holder would save, and how many teams the day needs. */
export function Advice({ planning }: { planning: RoundPlanning }) {
  const { ask, planned } = planning;
  const { advice } = planned;
  if (ask === null || advice === null) return null;
  const unit = ask.round.sections[0]?.section.unitSeconds ?? 30;
  const saves = (id: string): number => Math.max(0, -(advice.alternatives.find((one) => one.id === id)?.by ?? 0));
  const { teams } = ask.round;
  return (
    <ul className="plain">
      {saves('team') > 0 ? <li>{say('ribbon.saves.team', { minutes: inMinutes(saves('team'), unit) })}</li> : null}
      {saves('apart-yes') > 0 ? (
        <li>{say('plan.saves.apart', { minutes: inMinutes(saves('apart-yes'), unit) })}</li>
      ) : null}
      {saves('holder') > 0 ? <li>{say('plan.saves.holder', { minutes: inMinutes(saves('holder'), unit) })}</li> : null}
      {saves('kits') > 0 ? <li>{say('plan.saves.kits', { minutes: inMinutes(saves('kits'), unit) })}</li> : null}
      {advice.teamsNeeded === undefined ? null : advice.teamsNeeded === null ? (
        <li>{say('ribbon.teams-never')}</li>
      ) : (
        <li>
          {say('ribbon.teams-needed', {
            count: advice.teamsNeeded,
            enough: advice.teamsNeeded <= teams ? 'yes' : 'no',
          })}
        </li>
      )}
    </ul>
  );
}

/** Why the plan is as it is, section by section, and what lengths it goes by. */
export function Why({ planning, names }: { planning: RoundPlanning; names: Names }) {
  const { ask, plan } = planning;
  if (ask === null || plan === null) return null;
  return (
    <details className="ribbon-behind no-print">
      <summary>{say('ribbon.why')}</summary>
      <div className="stack">
        {plan.teams.map((team, number) =>
          team.visits.map((visit) => {
            const section = ask.round.sections.find((one) => one.section.id === visit.section)?.section;
            if (section === undefined) return null;
            return (
              <div key={`${teamName(number)} ${visit.section}`}>
                <h3>
                  {plan.teams.length > 1 ? `${teamName(number)} · ${names(visit.section)}` : names(visit.section)}
                </h3>
                <ul className="plain">
                  {explainPlan(section, visit.plan).map((sentence) => (
                    <li key={`${sentence.say} ${JSON.stringify(sentence.with)}`}>{say(named(sentence, names))}</li>
                  ))}
                </ul>
              </div>
            );
          }),
        )}
        <div>
          <h3>{say('ribbon.lengths')}</h3>
          <p className="small soft">{say('ribbon.lengths-why')}</p>
          <ul className="plain flow-list small">
            {ask.assumed.map(({ kind, recorded }) => (
              <li key={kind}>{say('ribbon.length', { what: kindName(kind), seconds: secondsOf(kind), recorded })}</li>
            ))}
          </ul>
        </div>
      </div>
    </details>
  );
}

const secondsOf = (kind: string): number => roundDefaults.find((one) => one.id === kind)?.value ?? 45;

const known = [
  'glove-change',
  'fetch',
  'refetch',
  'confirm',
  'weigh',
  'draw',
  'chip',
  'injection',
  'oral',
  'topical',
  'look',
  'start-test',
  'read',
] as const;

export function kindName(kind: string): string {
  const own = known.find((one) => one === kind);
  return own === undefined ? kind : say(`ribbon.kind.${own}`);
}
