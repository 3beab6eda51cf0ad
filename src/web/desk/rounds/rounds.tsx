import { roundView } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { useWorld } from '../../store/here.js';
import { RoundRows } from './round-rows.js';

export function Rounds() {
  const world = useWorld();
  const views = [...world.shelter.rounds.values()]
    .sort((a, b) => (a.plan.on < b.plan.on ? 1 : a.plan.on > b.plan.on ? -1 : a.plannedAt < b.plannedAt ? 1 : -1))
    .slice(0, 200)
    .flatMap((round) => roundView(world, round.id) ?? []);
  return (
    <Page
      title={say('desk.rounds.title')}
      acts={
        <>
          <GoButton to="/rounds/plan">{say('ribbon.page.title')}</GoButton>
          <GoButton to="/day-sheet">{say('day-sheet.open')}</GoButton>
          <GoButton to="/rounds/key-in">{say('ribbon.key-in.title')}</GoButton>
          <GoButton to="/rounds/prepare" main>
            {say('desk.today.prepare')}
          </GoButton>
        </>
      }
    >
      <RoundRows rounds={views} empty={say('desk.rounds.none')} />
    </Page>
  );
}
