import { animalsMet } from '../../core/route-plan/model/instance.js';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { Part } from '../parts/page.js';
import { Notice } from '../parts/state.js';
import { Advice, kindName, Why } from './advice.js';
import { ChooseSettings } from './choose.js';
import { Ribbon } from './drawing/ribbon.js';
import { handOf } from './hand-of-plan.js';
import { Headline } from './headline.js';
import { littersIn } from './in-order.js';
import { type Names, named } from './named.js';
import { OrderList } from './order-list.js';
import { pictureOf, teamName } from './picture.js';
import type { Choices, RoundPlanning } from './use-round-plan.js';
import './ribbon-screens.css';

interface PlanPartProps {
  readonly planning: RoundPlanning;
  readonly choices: Choices;
  readonly names: Names;
  /** Milliseconds since 1970 at which the round starts. */
  readonly zero_ms: number;
}

/** The plan of a round that has not begun: how good it is, the ribbon, the order to change, and what else could be. */
export function PlanPart({ planning, choices, names, zero_ms }: PlanPartProps) {
  const { ask, plan, refused } = planning;
  if (ask === null) return null;
  const hand = handOf(planning, names);
  const litterOf = littersIn(ask);
  const unit = ask.round.sections[0]?.section.unitSeconds ?? 30;
  return (
    <Part
      title={say('ribbon.title')}
      acts={planning.reordered ? <Act onAct={planning.backToBest}>{say('ribbon.order.back')}</Act> : undefined}
    >
      <Headline planning={planning} names={names} zero_ms={zero_ms} />
      {plan === null ? null : (
        <Ribbon
          picture={pictureOf(ask, plan, zero_ms, names)}
          label={say('ribbon.label')}
          {...(hand === undefined ? {} : { hand })}
        />
      )}
      {refused === null ? null : (
        <div className="ribbon-refused">
          <Notice tone="stop" live="alert">
            {say('ribbon.order.refused')} {say(named(refused, names))}
          </Notice>
        </div>
      )}
      {planning.lost.length === 0 ? null : (
        <Notice tone="attention" live="status">
          <b>{say('ribbon.order.lost')}</b>
          <ul className="plain">
            {planning.lost.map((why) => (
              <li key={`${why.say} ${JSON.stringify(why.with)}`}>{say(named(why, names))}</li>
            ))}
          </ul>
        </Notice>
      )}
      <div className="no-print stack">
        <Advice planning={planning} />
        <details className="ribbon-behind">
          <summary>{say('ribbon.order.title')}</summary>
          <p className="soft small">{say('ribbon.order.how')}</p>
          <div className="order-lists">
            {plan?.teams.map((team, number) =>
              team.visits.map((visit) => {
                const title =
                  plan.teams.length > 1 ? `${teamName(number)} · ${names(visit.section)}` : names(visit.section);
                return (
                  <section key={title} className="stack tight" aria-label={title}>
                    <h3>{title}</h3>
                    <OrderList
                      label={say('ribbon.order.in', { section: names(visit.section) })}
                      order={animalsMet(visit.plan.steps)}
                      nameOf={names}
                      noteOf={(animal) => noteOf(planning, animal)}
                      litterOf={litterOf}
                      onOrder={(order) => planning.reorder(number, visit.section, order)}
                    />
                  </section>
                );
              }),
            )}
          </div>
        </details>
        <details className="ribbon-behind">
          <summary>{say('ribbon.setting.title')}</summary>
          <ChooseSettings choices={choices} planned={planning.planned} unit={unit} />
        </details>
        <Why planning={planning} names={names} />
      </div>
    </Part>
  );
}

function noteOf({ ask }: RoundPlanning, animal: string): string {
  for (const stop of ask?.stops ?? []) {
    const own = stop.animals.find((one) => one.animal.id === animal);
    if (own !== undefined) return own.lines.map((line) => kindName(line.kind)).join(' · ');
  }
  return '';
}
