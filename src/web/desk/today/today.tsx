import { Link } from 'wouter';
import type { Role } from '../../../core/people.js';
import { flagsIn } from '../../../log/flags/flags.js';
import { lostInWords } from '../../../log/views/documents/lost-documents.js';
import { roundView } from '../../../log/views/round/round.js';
import { dueIn, inCare } from '../../../log/views/world.js';
import { personName, say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { GoButton } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { LaidFridge } from '../../ribbon/fridge-alarm.js';
import { usePerson, useStatusOf, useWorld } from '../../store/here.js';
import { type DueFilter, isShown } from '../due/due-list.js';
import { FlagTable } from '../flags/flag-table.js';
import { RoundRows } from '../rounds/round-rows.js';
import { SectionsToday } from './sections-today.js';

/** What needs a person now, how much there is, and the rounds of today. */
export function Today() {
  const world = useWorld();
  const { shelter } = world;
  const lost = lostInWords(shelter);
  const today = useToday(shelter.zone);
  const person = usePerson();
  const unsent = useStatusOf('unsent');
  const here = inCare(world);
  const items = here.flatMap((animal) => dueIn(world, animal, today));
  // As many as the list has that the figure opens.
  const count = (show: DueFilter['show']): number =>
    items.filter((item) => isShown(item, show, today, shelter.protocol)).length;
  const flags = flagsIn(world, today).filter((flag) => flag.state !== 'answered');
  const mine = flags.filter(
    (flag) => flag.state === 'open' && (person === null || flag.for.includes(person.role as Role)),
  );
  // However many there are: no stop is pushed off the page by another.
  const shown = Math.max(8, mine.filter(({ severity }) => severity === 'stop').length);
  const running = here.flatMap((animal) => animal.runs).filter((run) => run.startedAt !== null && run.readAt === null);
  const rounds = [...shelter.rounds.values()]
    .filter((round) => round.plan.on === today || (round.begunAt !== null && round.accepted === null))
    .flatMap((round) => roundView(world, round.id) ?? []);
  const untaken = flags.filter((flag) => flag.state === 'open').length;
  const figures = [
    { word: say('desk.today.in-care', { count: here.length }), figure: here.length, to: '/animals' },
    { word: say('desk.today.overdue'), figure: count('overdue'), to: '/due?show=overdue' },
    { word: say('desk.today.due'), figure: count('today'), to: '/due?show=today' },
    { word: say('desk.today.waiting'), figure: count('waiting'), to: '/due?show=waiting' },
    ...(shelter.protocol?.heldLong == null
      ? []
      : [{ word: say('desk.today.held-long'), figure: count('held-long'), to: '/due?show=held-long' }]),
    { word: say('desk.today.tests', { count: running.length }), figure: running.length, to: '/rounds' },
    { word: say('desk.today.flags', { count: untaken }), figure: untaken, to: '/flags' },
    { word: say('desk.today.unsent'), figure: unsent, to: '/device' },
  ];
  return (
    <Page
      title={say('desk.today.title', { day: { date: today } })}
      beside={shelter.name}
      acts={
        <>
          <GoButton to="/weigh">{say('drawup.weigh.title')}</GoButton>
          <GoButton to="/rounds/prepare" main>
            {say('desk.today.prepare')}
          </GoButton>
        </>
      }
    >
      {lost !== null ? (
        <Notice tone="stop">{say(lost)}</Notice>
      ) : shelter.protocol === null || shelter.formulary === null ? (
        <Notice tone="attention">
          {say('desk.today.nothing-signed')} <Link href="/documents">{say('parts.place.documents')}</Link>
        </Notice>
      ) : null}
      <LaidFridge />
      <div className="today-counts">
        {figures.map(({ word, figure, to }) => (
          <Link key={word} href={to}>
            <span className="figure">{figure}</span>
            {word}
          </Link>
        ))}
      </div>
      <Part title={say('desk.today.now')} acts={<GoButton to="/flags">{say('desk.today.all-flags')}</GoButton>}>
        {mine.length === 0 ? (
          <p>{say('desk.today.nothing', { name: person === null ? '' : personName(person.id) })}</p>
        ) : (
          <FlagTable flags={mine.slice(0, shown)} brief />
        )}
      </Part>
      <Part title={say('desk.today.rounds')}>
        <RoundRows rounds={rounds} empty={say('desk.today.no-rounds')} />
      </Part>
      <Part title={say('desk.today.sections')}>
        <SectionsToday />
      </Part>
    </Page>
  );
}
