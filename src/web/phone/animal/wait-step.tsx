import { useState } from 'react';
import type { DueItem } from '../../../core/protocol/due.js';
import { whyWait } from '../../../log/bedside/line-now.js';
import { orderOfLine } from '../../../log/bedside/order-of-line.js';
import { leaveForToday } from '../../../log/commands/round.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { Notice, State } from '../../parts/state.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, Pair, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { OrderNote } from '../around/order-note.js';
import { lineNow, useRound } from '../around/use-round.js';

interface WaitProps {
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  readonly item: DueItem;
  readonly onGoOn: () => void;
}

/** The protocol says not now, and why. It advises: a team may still go on, and then the record says what they did. */
export function WaitStep({ stop, line, item, onGoOn }: WaitProps) {
  const { round, shelter, now: at } = useRound();
  const ordered = orderOfLine(stop.animal, shelter, line.schedule, at);
  const { state, save } = useSave();
  const [other, setOther] = useState(false);
  const leave = async (): Promise<void> => {
    if (lineNow(round, stop.animal.id, line.schedule)?.state !== 'open') return;
    const because = whyWait(item);
    await save(leaveForToday(stop.animal.id, line.schedule, because, round, now()));
  };
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{say('round.wait.title', { what: line.name })}</h2>
          <Notice tone="stop">
            {say(whyWait(item))}{' '}
            {item.hold?.until != null ? say('round.wait.until', { until: { date: item.hold.until } }) : null}
          </Notice>
          {ordered === null ? null : <OrderNote of={ordered} />}
          {ordered?.stand.notBefore == null ? null : (
            <p>{say('round.wait.not-before-time', { at: { instant: ordered.stand.notBefore } })}</p>
          )}
          {item.hold === null && ordered === null && item.earliest !== null ? (
            <p>{say('round.wait.not-before', { on: { date: item.earliest } })}</p>
          ) : null}
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        <InSight>
          <State tone="stop">{say('round.wait.title', { what: line.name })}</State>
          {item.hold?.until != null ? (
            <span>{say('round.wait.until', { until: { date: item.hold.until } })}</span>
          ) : null}
        </InSight>
        <BigButton onAct={leave}>{say('round.wait.leave')}</BigButton>
        <Pair>
          <Act size="mid" onAct={() => setOther(true)}>
            {say('round.not-given.open')}
          </Act>
          {item.hold?.code === 'order-lapsed' ? null : (
            <Act size="mid" onAct={onGoOn}>
              {say('round.wait.go-on')}
            </Act>
          )}
        </Pair>
      </Acts>
      {other ? <NotGivenSheet stop={stop} line={line} onClose={() => setOther(false)} /> : null}
    </>
  );
}
