import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { instantAt } from '../../../core/calendar.js';
import { type PersonId, RoundId, type SectionId } from '../../../core/ids.js';
import { wallTimeOf } from '../../../core/wall-time.js';
import { beginRound } from '../../../log/commands/round.js';
import { linesOfRound, type Preparation, prepareRound } from '../../../log/prepare/prepare.js';
import { inCare } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { msOf, now, useNow, useToday } from '../../clock.js';
import { ofSections } from '../../paper/draw-up/paths.js';
import { Act } from '../../parts/act.js';
import { ChooseSome, Tick } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { GoButton } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { ChooseShift } from '../../ribbon/choose.js';
import { LaidFridge, PreparedFridge, useCalls } from '../../ribbon/fridge-alarm.js';
import { endInstant, layDown } from '../../ribbon/lay-down.js';
import { namesIn } from '../../ribbon/named.js';
import { OtherTeams, useOtherTeams } from '../../ribbon/other-teams.js';
import { teamName } from '../../ribbon/picture.js';
import { PlanPart } from '../../ribbon/plan-part.js';
import { chosen, useChoices, useRoundPlan } from '../../ribbon/use-round-plan.js';
import { signInHere } from '../../sign-in/sign-in.js';
import { newId, store, usePeople, useWho, useWorld } from '../../store/here.js';
import { NotSecure } from '../../withheld/not-secure.js';
import { CartList } from './cart-list.js';
import { OrderOfRound } from './order-of-round.js';

/** Before the shift: which sections, who, when; what to weigh first, what goes on the cart, in which order. */
export function Prepare() {
  const world = useWorld();
  const { shelter } = world;
  const who = useWho();
  const today = useToday(shelter.zone);
  const [, go] = useLocation();
  // The plan stands still while people read it: worked out as of the moment the page was opened.
  const [at] = useState(now);
  const counts = useCounts();
  const open = shelter.sections.filter((section) => !section.closed);
  const [sections, setSections] = useState<SectionId[]>(() =>
    open.filter((one) => (counts.get(one.id) ?? 0) > 0).map((one) => one.id),
  );
  const [treater, setTreater] = useState<PersonId | null>(who.person);
  const [holder, setHolder] = useState<PersonId | 'alone' | null>(who.partner);
  const [time, setTime] = useState(() => wallTimeOf(now(), shelter.zone));
  const [here, setHere] = useState(true);
  const id = useMemo(() => RoundId.parse(newId()), []);
  const plan = useMemo(() => prepareRound(world, sections, at), [world, sections, at]);
  const people = usePeople().filter((one) => one.active && one.role !== 'caregiver');
  const options = people.map((one) => ({ id: one.id, label: one.name, note: say(`parts.role.${one.role}`) }));
  const goodTime = /^([01]\d|2[0-3]):[0-5]\d$/.test(time);
  const choices = useChoices(world);
  const startsAt = goodTime ? instantAt(today, time, shelter.zone) : null;
  const endsAt = startsAt === null ? null : endInstant(choices, today, startsAt, shelter.zone);
  const others = useOtherTeams(choices.teams - 1);
  // Whoever has not said yet who holds is planned as two.
  const inTeams = [holder, ...others.people.map((one) => one.holder)].map((one) => (one === 'alone' ? 1 : 2));
  const choice = startsAt === null ? null : { startsAt, endsAt, people: inTeams, ...chosen(choices) };
  const planning = useRoundPlan(world, plan, choice, at);
  const names = useMemo(() => namesIn(world), [world]);
  const calls = useCalls(plan, startsAt);
  const now_ms = useNow(20_000);

  const intent = (): Intent => {
    if (treater === null) return { missing: say('desk.prepare.needs-treater') };
    if (!goodTime) return { missing: say('parts.time-wrong') };
    const lines = linesOfRound(world, plan);
    if (lines.length === 0 || startsAt === null) return { missing: say('desk.prepare.nothing-due') };
    if (planning.planned.state === 'working' && planning.planned.answer === null)
      return { missing: say('ribbon.working') };
    if (holder === null || others.teams === null) return { missing: say('ribbon.team-missing') };
    const teams = [{ round: id, treater, holder: holder === 'alone' ? null : holder }, ...others.teams];
    const planned = layDown(shelter, { on: today, sections, startsAt, endsAt, lines }, teams, planning, choices, now());
    return planned.ok && here ? [...planned.value, ...beginRound(id, now())] : planned;
  };
  const saved = async (): Promise<void> => {
    // What was asked for stands in the round now.
    planning.backToBest();
    if (!here) return go(`/rounds/${encodeURIComponent(id)}`);
    const partner = holder === 'alone' ? null : holder;
    // Another than who is signed in signs in on the round's own page; in the invented shelter one tap will do.
    if (treater === who.person) await store.chooseWho({ person: treater, partner });
    else if (shelter.demo && treater !== null) await signInHere(treater, null, partner);
    go(`/round/${encodeURIComponent(id)}`);
  };

  return (
    <Page
      wide
      title={say('desk.prepare.title')}
      beside={say('desk.prepare.beside', { day: { date: today } })}
      acts={
        <>
          <GoButton to={ofSections(sections)}>{say('drawup.sheet.open')}</GoButton>
          <Act onAct={() => window.print()}>{say('parts.print')}</Act>
        </>
      }
    >
      <LaidFridge />
      <PreparedFridge calls={calls} opened_ms={msOf(at)} />
      <div className="columns two no-print">
        <ChooseSome
          label={say('desk.prepare.sections')}
          options={open.map((one) => ({
            id: one.id,
            label: one.name,
            note: say('desk.prepare.section-note', {
              rank: say(`parts.rank.${one.rank}`),
              animals: counts.get(one.id) ?? 0,
            }),
          }))}
          value={sections}
          onChange={setSections}
        />
        <div className="stack">
          {choices.teams > 1 ? <h2>{teamName(0)}</h2> : null}
          <Pick label={say('desk.round.treater')} options={options} value={treater} onChange={setTreater} />
          <Pick<PersonId | 'alone'>
            label={say('desk.round.holder')}
            options={[
              { id: 'alone' as const, label: say('parts.who.alone') },
              ...options.filter((one) => one.id !== treater),
            ]}
            value={holder}
            onChange={setHolder}
          />
          <Field
            label={say('desk.prepare.starts')}
            value={time}
            onChange={setTime}
            narrow
            wrong={goodTime ? null : say('parts.time-wrong')}
          />
          <ChooseShift choices={choices} sections={open.filter((one) => sections.includes(one.id))} />
          <OtherTeams state={others} options={options} />
        </div>
      </div>
      {plan.problems.map((problem) => (
        <Notice key={`${problem.say} ${JSON.stringify(problem.with)}`} tone="attention">
          {say(problem)}
        </Notice>
      ))}
      <WeighFirst plan={plan} />
      {startsAt === null ? null : (
        <PlanPart planning={planning} choices={choices} names={names} zero_ms={msOf(startsAt)} />
      )}
      <Part title={say('desk.cart.title')}>
        <CartList plan={plan} calls={calls} now_ms={now_ms} />
      </Part>
      <Part title={say('desk.order.title')}>
        <OrderOfRound plan={plan} />
      </Part>
      <div className="sheet stack no-print">
        <Tick label={say('desk.prepare.here')} note={say('desk.prepare.here-note')} value={here} onChange={setHere} />
        {here && !isSecureContext ? <NotSecure /> : null}
        <RecordFoot
          intent={intent()}
          action={say(here ? 'desk.prepare.begin' : 'desk.prepare.lay-down')}
          onSaved={() => void saved()}
        />
      </div>
    </Page>
  );
}

function useCounts(): ReadonlyMap<string, number> {
  const world = useWorld();
  return useMemo(() => {
    const counts = new Map<string, number>();
    for (const animal of inCare(world)) counts.set(animal.section ?? '', (counts.get(animal.section ?? '') ?? 0) + 1);
    return counts;
  }, [world]);
}

function WeighFirst({ plan }: { plan: Preparation }) {
  const world = useWorld();
  if (plan.weighFirst.length === 0) return null;
  const names = plan.weighFirst.flatMap((id) => world.animals.get(id)?.name ?? []);
  return (
    <Notice tone="attention">
      <b>{say('desk.prepare.weigh-first', { count: plan.weighFirst.length })}</b>{' '}
      {say('desk.prepare.weigh-who', { names: { list: names } })}
    </Notice>
  );
}
