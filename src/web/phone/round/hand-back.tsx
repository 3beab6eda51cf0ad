import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { abandonTest, handBack, notGiven } from '../../../log/commands/round.js';
import type { NotGivenReason } from '../../../log/kinds/treatment.js';
import type { Draft } from '../../../log/record.js';
import { gloveChanges } from '../../../log/views/round/gloves.js';
import { isDrawn, isLeft } from '../../../log/views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { reasonOptions } from '../../parts/not-given-reasons.js';
import { animalPath, leavePath, readPath, roundPath } from '../../parts/round-paths.js';
import { Notice, State } from '../../parts/state.js';
import { useStatusOf } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { SignsAsked } from '../around/signs-asked.js';
import { runningTests } from '../around/threads.js';
import { useRound } from '../around/use-round.js';

interface OpenLine {
  readonly stop: AnimalStop;
  readonly line: RoundLine;
}

/** The round back to the desk: everything has an end or a reason, and it works without the network. */
export function HandBack() {
  const around = useRound();
  const { view, round } = around;
  const unsent = useStatusOf('unsent');
  const server = useStatusOf('server');
  const [note, setNote] = useState('');
  const [rest, setRest] = useState<NotGivenReason | null>(null);
  const [one, setOne] = useState<OpenLine | null>(null);
  const [, go] = useLocation();
  const { state, save } = useSave();
  const running = runningTests(around);
  const open = view.stops.flatMap(({ animals }) =>
    animals.flatMap((stop) => stop.lines.filter(isLeft).map((line): OpenLine => ({ stop, line }))),
  );
  // A chip that is in and has not been read again cannot be "not given".
  const unread = open.filter(({ line }) => line.state === 'part');
  const left = open.filter(({ line }) => line.state !== 'part');
  const inside = view.stops.find((stop) => stop.state === 'inside');
  const { counts } = view;
  const changes = gloveChanges(view.facts);
  if (view.state === 'handed-back' || view.state === 'accepted') {
    return (
      <>
        <div className="round-body">
          <h1>{say('round.hand-back.done')}</h1>
          <Counts counts={counts} />
          <Unsent unsent={unsent} server={server} />
        </div>
        <Acts>
          <BigButton onAct={() => go('/')}>{say('round.to-start')}</BigButton>
        </Acts>
      </>
    );
  }
  const nameOf = (one: OpenLine): string => one.stop.animal.name || one.stop.animal.label;
  const why =
    running.length > 0
      ? say('round.why.tests-run', { animals: { list: running.map((test) => test.name) } })
      : unread.length > 0
        ? say('round.why.chip-unread', { animals: { list: unread.map(nameOf) } })
        : inside !== undefined
          ? say('round.hand-back.still-inside', { section: inside.section.name })
          : left.length > 0 && rest === null
            ? say('round.why.left', { count: left.length })
            : null;
  const finish = async (): Promise<void> => {
    const at = now();
    const reasons = left.flatMap(({ stop, line }): Draft[] => {
      if (rest === null) return [];
      return isDrawn(line) && line.run !== null
        ? abandonTest(stop.animal.id, { run: line.run.run, why: rest, round }, at)
        : notGiven(stop.animal.id, { schedule: line.schedule, reason: rest, round }, at);
    });
    const drawnOnly = left.filter(({ line }) => isDrawn(line)).length;
    const body = {
      done: counts.done,
      notDone: counts.notDone + left.length - drawnOnly,
      abnormal: counts.abnormal + drawnOnly,
      note: note.trim(),
    };
    const back = handBack(round, body, running.length, at);
    await save(back.ok ? { ok: true, value: [...reasons, ...back.value] } : back);
  };
  return (
    <>
      <div className="round-body">
        <h1>{say('round.hand-back.title')}</h1>
        <Counts counts={counts} />
        {changes === 0 ? null : <p className="soft">{say('round.gloves.changed', { count: changes })}</p>}
        {running.map((test) => (
          <Notice key={test.run.run} tone="running">
            {say('round.hand-back.running', { animal: test.name })}{' '}
            <Link href={readPath(round, test.animal, test.run.run)}>{say('round.hand-back.to-reading')}</Link>
          </Notice>
        ))}
        {unread.map(({ stop, line }) => (
          <Notice key={line.animal} tone="attention">
            {say(line.abnormal ? 'round.hand-back.chip-unanswered' : 'round.hand-back.chip-unread', {
              animal: stop.animal.name || stop.animal.label,
            })}{' '}
            <Link href={animalPath(round, line.animal)}>{say('round.hand-back.to-chip')}</Link>
          </Notice>
        ))}
        {inside === undefined ? null : (
          <Notice tone="attention">
            {say('round.hand-back.still-inside', { section: inside.section.name })}{' '}
            <Link href={leavePath(round, inside.section.id)}>{say('round.leave.title')}</Link>
          </Notice>
        )}
        <SignsAsked stops={view.stops.flatMap(({ animals }) => animals)} />
        {left.length === 0 ? null : (
          <section className="step-card">
            <h2>{say('round.hand-back.left', { count: left.length })}</h2>
            <details open={left.length <= shownAtOnce}>
              <summary>{say('round.hand-back.which')}</summary>
              {left.map(({ stop, line }) => (
                <div key={`${line.animal}:${line.schedule}`} className="row spread ruled">
                  <Link href={animalPath(round, line.animal)}>
                    {say(isDrawn(line) ? 'round.hand-back.line-drawn' : 'round.hand-back.line', {
                      animal: stop.animal.name || stop.animal.label,
                      what: line.name,
                    })}
                  </Link>
                  <Act size="mid" onAct={() => setOne({ stop, line })}>
                    {say('round.hand-back.reason')}
                  </Act>
                </div>
              ))}
            </details>
            <ChooseOne
              label={say('round.hand-back.all-the-rest', { count: left.length })}
              options={reasonOptions().sort((a, b) => Number(b.id === usual) - Number(a.id === usual))}
              value={rest}
              onChange={setRest}
              big
            />
          </section>
        )}
        <Field label={say('round.hand-back.note')} value={note} onChange={setNote} lines maxLength={2000} />
        <Unsent unsent={unsent} server={server} />
      </div>
      <Acts>
        <Trouble state={state} />
        <InSight>
          <span>{say('round.counts', counts)}</span>
        </InSight>
        <BigButton why={why} onAct={finish}>
          {say('round.hand-back.do')}
        </BigButton>
        <Act size="mid" onAct={() => go(roundPath(round))}>
          {say('round.to-round')}
        </Act>
      </Acts>
      {one === null ? null : <NotGivenSheet stop={one.stop} line={one.line} onClose={() => setOne(null)} />}
    </>
  );
}

/** A longer list is folded, so that the reason for all of them is in sight. */
const shownAtOnce = 4;

/** Stands first in the list of reasons at the end of a shift. */
const usual: NotGivenReason = 'ran-out-of-time';

const Counts = ({ counts }: { counts: { done: number; notDone: number; open: number; abnormal: number } }) => (
  <dl className="round-counts">
    {(['done', 'notDone', 'open', 'abnormal'] as const).map((key) => (
      <div key={key}>
        <dt>{say(`round.count.${key}`)}</dt>
        <dd className="figure big">{counts[key]}</dd>
      </div>
    ))}
  </dl>
);

function Unsent({ unsent, server }: { unsent: number; server: string }) {
  if (unsent === 0) return <State tone="done">{say('round.hand-back.all-sent')}</State>;
  return (
    <Notice tone="attention">
      {say('round.hand-back.unsent', { count: unsent })}{' '}
      {server === 'reached' ? null : say('round.hand-back.will-be-sent')}
    </Notice>
  );
}
