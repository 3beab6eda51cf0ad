import { useState } from 'react';
import { orderOfLine } from '../../../log/bedside/order-of-line.js';
import { itemAt } from '../../../log/views/due/due-at.js';
import { type AsNeeded, asNeededOf } from '../../../log/views/round/as-needed.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { rhythmSaid } from '../../../told/order-words.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import { Notice, State } from '../../parts/state.js';
import { Acts, InSight } from '../around/bits.js';
import { OrderNote } from '../around/order-note.js';
import { useRound } from '../around/use-round.js';
import { GiveStep } from '../dose/give-step.js';
import { LookStep } from './look-step.js';

/** What stands against giving an order as needed at this moment; null for nothing. */
function useNotNow(stop: AnimalStop, { item, line }: AsNeeded) {
  const { shelter, now } = useRound();
  const stand = orderOfLine(stop.animal, shelter, line.schedule, now)?.stand ?? null;
  const { hold } = itemAt(item, stop.animal, shelter, now);
  if (hold !== null) return say(hold.why);
  if (stand === null || stand.mayDo !== null) return null;
  return stand.notBefore === null
    ? say(item.because)
    : say('round.wait.not-before-time', { at: { instant: stand.notBefore } });
}

interface AsNeededOrdersProps {
  readonly stop: AnimalStop;
  readonly onGive: (one: AsNeeded) => void;
}

/** What a veterinarian ordered for this animal to be given when its reason is so: at hand at any time of the round. */
export function AsNeededOrders({ stop, onGive }: AsNeededOrdersProps) {
  const { world, today } = useRound();
  const orders = asNeededOf(world, stop.animal, today);
  if (orders.length === 0) return null;
  return (
    <section className="step-card" aria-label={say('round.as-needed.title')}>
      <h2>{say('round.as-needed.title')}</h2>
      {orders.map((one) => (
        <AsNeededRow key={one.line.schedule} stop={stop} one={one} onGive={() => onGive(one)} />
      ))}
    </section>
  );
}

function AsNeededRow({ stop, one, onGive }: { stop: AnimalStop; one: AsNeeded; onGive: () => void }) {
  const not = useNotNow(stop, one);
  return (
    <div className="stack tight ruled">
      <span>
        <b>{one.line.name}</b> · {say(rhythmSaid(one.order.terms))}
      </span>
      {not === null ? null : <State tone="stop">{not}</State>}
      <Act size="mid" onAct={onGive}>
        {say(one.line.action === 'look' ? 'round.as-needed.do' : 'round.as-needed.give', { what: one.line.name })}
      </Act>
    </div>
  );
}

/** One order as needed in the hand: first what stands against it, then the step that every treatment has. */
export function AsNeededStep({ stop, one, onBack }: { stop: AnimalStop; one: AsNeeded; onBack: () => void }) {
  const [goneOn, setGoneOn] = useState(false);
  const { shelter, now } = useRound();
  const not = useNotNow(stop, one);
  const { line } = one;
  if (not === null || goneOn) {
    const Step = line.action === 'look' ? LookStep : GiveStep;
    return <Step stop={stop} line={line} onBack={onBack} />;
  }
  const ordered = orderOfLine(stop.animal, shelter, line.schedule, now);
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{say('round.wait.title', { what: line.name })}</h2>
          <Notice tone="stop">{not}</Notice>
          {ordered === null ? null : <OrderNote of={ordered} />}
        </section>
      </div>
      <Acts>
        <InSight>
          <State tone="stop">{not}</State>
        </InSight>
        <BigButton onAct={onBack}>{say('round.as-needed.back')}</BigButton>
        {itemAt(one.item, stop.animal, shelter, now).hold?.code === 'order-lapsed' ? null : (
          <Act size="mid" onAct={() => setGoneOn(true)}>
            {say('round.wait.go-on')}
          </Act>
        )}
      </Acts>
    </>
  );
}
