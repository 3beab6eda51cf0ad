import { useState } from 'react';
import { lampCode } from '../../../core/animal/lamp.js';
import { usualObservations } from '../../../core/animal/named.js';
import { dueAtOf, orderOfLine } from '../../../log/bedside/order-of-line.js';
import { noteObservation } from '../../../log/commands/animal.js';
import type { Draft } from '../../../log/record.js';
import { scheduleNamed } from '../../../log/views/due/schedules.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { dueIn } from '../../../log/views/world.js';
import { observationWords } from '../../../told/codes.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChooseSome } from '../../parts/fields/choices.js';
import { Notice } from '../../parts/state.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, Pair, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { OrderNote } from '../around/order-note.js';
import { stillToDo, useRound } from '../around/use-round.js';
import { LookForChip } from '../chip/look-for-chip.js';
import { LampStep } from './lamp-step.js';

/** Something to look at, or to do that is no product: what was seen goes on the record, and looking itself does. */
export function LookStep({ stop, line, onBack }: { stop: AnimalStop; line: RoundLine; onBack?: () => void }) {
  const { animal } = stop;
  const { shelter, world, round, today, now: at } = useRound();
  const [seen, setSeen] = useState<(typeof usualObservations)[number][]>([]);
  const [leaving, setLeaving] = useState(false);
  const { state, save } = useSave();
  const codes: readonly string[] = scheduleNamed(shelter, line.schedule)?.satisfiedBy ?? [];
  if (codes.includes('chip-read')) return <LookForChip stop={stop} line={line} />;
  if (codes.includes(lampCode)) return <LampStep stop={stop} line={line} />;
  const ordered = orderOfLine(animal, shelter, line.schedule, at);
  const code = codes[0] ?? line.schedule;
  // A look named like what it notes is done by looking; any other one asks whether it is so.
  const asks = ordered === null && code !== line.schedule;
  const item = ordered === null ? dueIn(world, animal, today).find((one) => one.schedule === line.schedule) : undefined;
  const how = ordered === null ? (scheduleNamed(shelter, line.schedule)?.how ?? null) : null;
  const record = async (is: 'present' | 'absent'): Promise<void> => {
    if (!stillToDo(round, line)) return;
    const instant = now();
    const dueAt = dueAtOf(animal, shelter, line.schedule, instant);
    const drafts: Draft[] = [
      ...noteObservation(animal.id, { code, state: is, on: today, dueAt, round }, instant),
      ...seen.flatMap((one) => noteObservation(animal.id, { code: one, state: 'present', on: today, round }, instant)),
    ];
    await save(drafts);
  };
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{line.name}</h2>
          {ordered === null ? null : <OrderNote of={ordered} />}
          {item?.hold == null ? null : <Notice tone="stop">{say(item.hold.why)}</Notice>}
          {(item?.asks ?? []).map((ask) => (
            <Notice key={say(ask)} tone="attention">
              {say(ask)}
            </Notice>
          ))}
          {how === null ? null : (
            <ol className="steps">
              {how.steps.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ol>
          )}
          <ChooseSome
            label={say('round.look.seen')}
            options={usualObservations.map((id) => ({ id, label: observationWords(id) }))}
            value={seen}
            onChange={setSeen}
            flow
          />
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        <InSight>
          <b>{line.name}</b>
          {seen.length === 0 ? null : <span>{seen.map((id) => observationWords(id)).join(' · ')}</span>}
        </InSight>
        <BigButton onAct={() => record('present')}>
          {asks
            ? say('round.look.yes', { what: line.name })
            : say(seen.length === 0 ? 'round.look.done' : 'round.look.done-seen')}
        </BigButton>
        <Pair>
          {asks ? (
            <Act size="mid" onAct={() => record('absent')}>
              {say('round.look.no')}
            </Act>
          ) : null}
          <Act size="mid" onAct={onBack ?? (() => setLeaving(true))}>
            {say(onBack === undefined ? 'round.look.not-done' : 'round.as-needed.back')}
          </Act>
        </Pair>
      </Acts>
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}
