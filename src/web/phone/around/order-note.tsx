import { limitsSaid } from '../../../core/protocol/vet-orders/order-said.js';
import type { OrderOfLine } from '../../../log/bedside/order-of-line.js';
import { amountText, rhythmSaid } from '../../../told/order-words.js';
import { writtenText } from '../../../told/written-text.js';
import { say } from '../../../words/say.js';
import { State } from '../../parts/state.js';
import { useRound } from './use-round.js';

/** Whose order this is, what it says, and for which time of the day. */
export function OrderNote({ of }: { of: OrderOfLine }) {
  const { terms } = of.order;
  const { shelter } = useRound();
  const time = of.stand.mayDo?.at ?? '';
  return (
    <div className="stack tight">
      <p>
        <b>{say('round.order.by', { by: { person: terms.vet }, licence: { licenceOf: terms.vet } })}</b>{' '}
        {time === '' ? null : say('round.order.time', { time })}
      </p>
      {of.order.written === undefined ? null : (
        <State tone={of.order.written.answered === null ? 'attention' : 'plain'}>
          {writtenText(of.order, shelter.protocol)}
        </State>
      )}
      {terms.treat.is === 'words' ? <p>{terms.treat.words}</p> : null}
      {amountText(terms) === '' ? null : <p>{amountText(terms)}</p>}
      {limitsSaid(terms).length === 0 && terms.timing.is !== 'as-needed' ? null : <p>{say(rhythmSaid(terms))}</p>}
      {terms.why === '' ? null : <p className="how">{terms.why}</p>}
      {of.stand.times
        .filter((one) => one.state === 'missed' && one.why !== null)
        .map((one) => (
          <p key={`${one.on} ${one.at}`} className="how">
            {one.why === null ? null : say(one.why)}
          </p>
        ))}
    </div>
  );
}
