import { useMemo, useState } from 'react';
import { instantAt } from '../../core/calendar.js';
import type { SectionId } from '../../core/ids.js';
import { wallTimeOf } from '../../core/wall-time.js';
import { prepareRound } from '../../log/prepare/prepare.js';
import { say } from '../../words/say.js';
import { msOf, now, useToday } from '../clock.js';
import { Act } from '../parts/act.js';
import { ChooseSome } from '../parts/fields/choices.js';
import { Field } from '../parts/fields/field.js';
import { GoButton } from '../parts/links.js';
import { Page } from '../parts/page.js';
import { useWorld } from '../store/here.js';
import { ChooseShift } from './choose.js';
import { LaidFridge, PreparedFridge, useCalls } from './fridge-alarm.js';
import { endInstant } from './lay-down.js';
import { namesIn } from './named.js';
import { PlanPart } from './plan-part.js';
import { chosen, useChoices, useRoundPlan } from './use-round-plan.js';

/** What a round would take: sections, teams and times to try out, without laying anything down. */
export function PlanPage() {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const [at] = useState(now);
  const open = shelter.sections.filter((section) => !section.closed);
  const [sections, setSections] = useState<SectionId[]>(() => open.map((one) => one.id));
  const [time, setTime] = useState(() => wallTimeOf(now(), shelter.zone));
  const prepared = useMemo(() => prepareRound(world, sections, at), [world, sections, at]);
  const choices = useChoices(world);
  const names = useMemo(() => namesIn(world), [world]);
  const goodTime = /^([01]\d|2[0-3]):[0-5]\d$/.test(time);
  const startsAt = goodTime ? instantAt(today, time, shelter.zone) : null;
  const endsAt = startsAt === null ? null : endInstant(choices, today, startsAt, shelter.zone);
  const people = Array.from({ length: choices.teams }, () => 2 as const);
  const choice = startsAt === null ? null : { startsAt, endsAt, people, ...chosen(choices) };
  const planning = useRoundPlan(world, prepared, choice, at);
  const calls = useCalls(prepared, startsAt);
  return (
    <Page
      wide
      title={say('ribbon.page.title')}
      lead={say('ribbon.page.lead')}
      acts={
        <>
          <GoButton to="/rounds/prepare" main>
            {say('ribbon.page.prepare')}
          </GoButton>
          <Act onAct={() => window.print()}>{say('parts.print')}</Act>
        </>
      }
    >
      <LaidFridge />
      <PreparedFridge calls={calls} opened_ms={msOf(at)} />
      <div className="columns two no-print">
        <ChooseSome
          label={say('desk.prepare.sections')}
          options={open.map((one) => ({ id: one.id, label: one.name }))}
          value={sections}
          onChange={setSections}
        />
        <div className="stack">
          <Field
            label={say('desk.prepare.starts')}
            value={time}
            onChange={setTime}
            narrow
            wrong={goodTime ? null : say('parts.time-wrong')}
          />
          <ChooseShift choices={choices} sections={open.filter((one) => sections.includes(one.id))} />
        </div>
      </div>
      {prepared.sections.every((one) => one.animals.length === 0) ? <p>{say('desk.prepare.nothing-due')}</p> : null}
      {startsAt === null ? null : (
        <PlanPart planning={planning} choices={choices} names={names} zero_ms={msOf(startsAt)} />
      )}
    </Page>
  );
}
