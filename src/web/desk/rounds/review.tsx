import { useState } from 'react';
import { Link } from 'wouter';
import { RoundId } from '../../../core/ids.js';
import { standOf } from '../../../log/bedside/stand.js';
import { acceptHandBack } from '../../../log/commands/round.js';
import { effective } from '../../../log/views/effective.js';
import { type RoundLine, type RoundView, roundView } from '../../../log/views/round/round.js';
import { lineWords } from '../../../told/line-words.js';
import { animalName } from '../../../told/names.js';
import { standsInWords, standWords, toneOfStand } from '../../../told/stand-words.js';
import { tell } from '../../../told/tell.js';
import { personName, say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ofRound } from '../../paper/draw-up/paths.js';
import { sheetOf } from '../../paper/sheet/paths.js';
import { AbsentAnimals } from '../../parts/absent-animals.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { Field } from '../../parts/fields/field.js';
import { AnimalLink, GoButton } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { RecordFoot } from '../../parts/record-sheet.js';
import { SectionStrip } from '../../parts/section-hatch.js';
import { Notice, State } from '../../parts/state.js';
import { RoundClock } from '../../ribbon/round-clock.js';
import { useWorld } from '../../store/here.js';
import { RoundState } from './round-rows.js';
import { SignedHeadPart } from './signed-head.js';

/** A round as the desk sees it: what was done, what not and why, what is abnormal; and the hand-back to accept. */
export function Review({ params }: { params: { id: string } }) {
  const world = useWorld();
  const [note, setNote] = useState('');
  const id = RoundId.safeParse(decodeURIComponent(params.id));
  const view = id.success ? roundView(world, id.data) : null;
  if (view === null) return <Page title={say('desk.round.unknown')}>{null}</Page>;
  const { facts, counts } = view;
  const names = {
    treater: personName(facts.treater),
    holder: facts.holder === null ? say('desk.nobody') : personName(facts.holder),
  };
  const lines = view.stops.flatMap((stop) => stop.animals.flatMap((animal) => animal.lines));
  return (
    <Page
      title={say('desk.round.title', { on: { date: facts.plan.on } })}
      beside={<RoundState state={view.state} />}
      lead={say('desk.round.lead', { ...names, ...counts })}
      acts={
        <>
          <GoButton to={sheetOf(facts.id)}>{say('ribbon.sheet.open')}</GoButton>
          {view.state === 'planned' || view.state === 'running' ? (
            <GoButton to={ofRound(facts.id)}>{say('drawup.sheet.open')}</GoButton>
          ) : null}
          {view.state === 'planned' || view.state === 'running' ? (
            <GoButton to={`/round/${encodeURIComponent(facts.id)}`} main>
              {say('desk.round.open-here')}
            </GoButton>
          ) : null}
          <Act onAct={() => window.print()}>{say('parts.print')}</Act>
        </>
      }
    >
      {facts.handedBack === null || facts.handedBack.note === '' ? null : (
        <Notice tone="plain">{facts.handedBack.note}</Notice>
      )}
      <AbsentAnimals animals={facts.plan.lines.map(({ animal }) => animal)} />
      <Part title={say('ribbon.title')}>
        <RoundClock view={view} />
      </Part>
      <Lines title={say('desk.round.abnormal-lines')} lines={lines.filter((line) => line.abnormal)} />
      <Lines title={say('desk.round.not-done-lines')} lines={lines.filter((line) => line.state === 'not-done')} />
      {view.state === 'planned' ? null : (
        <Lines
          title={say('desk.round.open-lines')}
          lines={lines.filter((line) => ['open', 'running', 'part'].includes(line.state))}
        />
      )}
      <Part title={say('desk.round.everything')}>
        <Stops view={view} />
      </Part>
      {view.state === 'handed-back' ? (
        <div className="sheet stack no-print">
          <h2>{say('desk.round.accept')}</h2>
          <Field label={say('desk.round.accept-note')} value={note} onChange={setNote} lines maxLength={2000} />
          <RecordFoot
            intent={acceptHandBack(facts, note, now())}
            action={say('desk.round.accept')}
            onSaved={() => setNote('')}
          />
        </div>
      ) : null}
      {view.state === 'handed-back' || view.state === 'accepted' ? <SignedHeadPart /> : null}
      {facts.accepted === null ? null : (
        <Notice tone="done">
          {say('desk.round.accepted-by', {
            name: personName(facts.accepted.by),
            at: { instant: facts.accepted.at },
            note: facts.accepted.note,
          })}
        </Notice>
      )}
    </Page>
  );
}

function Lines({ title, lines }: { title: string; lines: readonly RoundLine[] }) {
  if (lines.length === 0) return null;
  return (
    <Part title={title}>
      <LineTable caption={title} lines={lines} />
    </Part>
  );
}

function LineTable({ caption, lines }: { caption: string; lines: readonly RoundLine[] }) {
  const world = useWorld();
  const told = (line: RoundLine): string => {
    const record = effective(world.bySubject.get(`animal:${line.animal}`) ?? []).find((one) => one.id === line.record);
    return record === undefined ? '' : say(tell(world, record));
  };
  return (
    <DataTable
      caption={caption}
      rows={lines}
      keyOf={(line) => `${line.animal} ${line.schedule}`}
      columns={[
        {
          id: 'animal',
          label: say('desk.animal.animal'),
          names: true,
          cell: (line) => {
            const animal = world.animals.get(line.animal);
            return animal === undefined ? animalName(world, line.animal) : <AnimalLink animal={animal} />;
          },
        },
        { id: 'what', label: say('desk.due.treatment'), cell: (line) => line.name },
        {
          id: 'state',
          label: say('desk.due.state'),
          cell: (line) => {
            const { tone, text } = lineWords(line);
            return <State tone={tone}>{text}</State>;
          },
        },
        { id: 'told', label: say('desk.round.recorded'), cell: (line) => <span className="small">{told(line)}</span> },
      ]}
    />
  );
}

function Stops({ view }: { view: RoundView }) {
  return (
    <div className="stack">
      {view.stops.map((stop) => (
        <div key={stop.section.id} className="stack tight">
          <SectionStrip rank={stop.section.rank} name={stop.section.name}>
            {say(`desk.round.stop.${stop.state}`)}
            {' · '}
            {standsInWords(stop.animals)}
          </SectionStrip>
          {stop.animals
            .map((one) => ({ ...one, stand: standOf(one) }))
            .map(({ animal, identified, lines, stand }) => (
              <div key={animal.id} className="keep">
                <p>
                  <Link href={`/animals/${encodeURIComponent(animal.id)}`}>{animal.name}</Link>{' '}
                  <State tone={toneOfStand[stand]}>{standWords(stand)}</State>{' '}
                  <span className="soft small">
                    {identified === null || identified.body.by === 'paper'
                      ? say('desk.round.not-identified')
                      : say(`desk.round.identified.${identified.body.by}`)}
                  </span>
                </p>
                <ul className="plain flow-list">
                  {lines.map((line) => {
                    const { tone, text } = lineWords(line);
                    return (
                      <li key={line.schedule}>
                        <State tone={tone}>{`${line.name}: ${text}`}</State>
                      </li>
                    );
                  })}
                </ul>
              </div>
            ))}
        </div>
      ))}
    </div>
  );
}
