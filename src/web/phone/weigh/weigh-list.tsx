import { Link } from 'wouter';
import { dayOfInstant } from '../../../core/calendar.js';
import { weightUsable } from '../../../log/views/doses/weight-for-dose.js';
import { weighGroups } from '../../../log/views/round/weigh-groups.js';
import { say } from '../../../words/say.js';
import { useNow, useToday } from '../../clock.js';
import { Page } from '../../parts/page.js';
import { SectionHatch } from '../../parts/section-hatch.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { groupName } from './group-name.js';
import './weigh.css';

export const weighGroupPath = (key: string): string => `/weigh/${encodeURIComponent(key)}`;

/** Which litter to put on the scale: who has been weighed today, and who has no weight to dose on, due or not. */
export function WeighList() {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const at = new Date(useNow(60_000)).toISOString();
  const groups = weighGroups(world);
  return (
    <Page title={say('drawup.weigh.title')} lead={say('drawup.weigh.lead')}>
      {groups.length === 0 ? <p>{say('drawup.weigh.nobody')}</p> : null}
      <ul className="plain weigh-groups">
        {groups.map((group) => {
          const weighed = group.animals.filter((animal) => {
            const last = animal.weighings.at(-1);
            return last !== undefined && !last.doubtful && dayOfInstant(last.at, shelter.zone) === today;
          }).length;
          const old = group.animals.filter((animal) => !weightUsable(shelter, animal, at, today)).length;
          return (
            <li key={group.key}>
              <Link href={weighGroupPath(group.key)} className="round-row">
                {group.section === null ? null : <SectionHatch rank={group.section.rank} />}
                <span className="what">
                  <b>{groupName(group)}</b>
                  <span className="soft small">
                    {say('drawup.weigh.today', { weighed, all: group.animals.length })}
                  </span>
                </span>
                <span className="end">
                  {old === 0 ? (
                    <State tone="done">{say('drawup.weigh.fresh')}</State>
                  ) : (
                    <State tone="attention">{say('drawup.weigh.old', { count: old })}</State>
                  )}
                </span>
              </Link>
            </li>
          );
        })}
      </ul>
    </Page>
  );
}
