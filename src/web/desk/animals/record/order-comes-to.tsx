import type { Dose } from '../../../../core/dosing/dose.js';
import { writePerKg } from '../../../../core/quantity/write.js';
import type { OrderJudged } from '../../../../log/views/doses/order-judged.js';
import { amountText } from '../../../../papers/sheet/amount.js';
import { say } from '../../../../words/say.js';
import { Tick } from '../../../parts/fields/choices.js';
import { Sentence } from '../../../parts/sentence.js';
import { Notice, State } from '../../../parts/state.js';

interface OrderComesToProps {
  readonly judged: readonly OrderJudged[];
  readonly meant: boolean;
  readonly onMeant: (on: boolean) => void;
}

/** What an order's figures come to for this animal today, and what is outside the limits of the formulary. */
export function OrderComesTo({ judged, meant, onMeant }: OrderComesToProps) {
  const beyond = judged.some((one) => one.beyond.length > 0 && one.refused.length === 0);
  if (judged.length === 0) return null;
  return (
    <section className="stack tight" aria-label={say('desk.order.comes-to')} aria-live="polite">
      <h3>{say('desk.order.comes-to')}</h3>
      {judged.map((one) => (
        <div key={one.from} className="stack tight">
          <Figures of={one} />
          {one.refused.map((gate) => (
            <State key={gate.code} tone="stop">
              <Sentence what={gate.why} />
            </State>
          ))}
          {one.ahead.map((gate) => (
            <State key={gate.code} tone="attention">
              <Sentence what={gate.why} />
            </State>
          ))}
          {one.refused.length > 0
            ? null
            : one.beyond.map((gate) => (
                <State key={`${gate.code} ${gate.why.say}`} tone="attention">
                  <Sentence what={gate.why} />
                </State>
              ))}
        </div>
      ))}
      {beyond ? (
        <Notice tone="attention">
          <Tick label={say('desk.order.meant')} note={say('desk.order.meant-note')} value={meant} onChange={onMeant} />
        </Notice>
      ) : null}
    </section>
  );
}

/** The amount as it will stand on the card, the label and the sheet. */
function Figures({ of: { from, dose } }: { of: OrderJudged }) {
  const { drawn, grams, mgPerKg } = dose;
  const amount =
    dose.stopped && dose.exact_ul === null && dose.pieces === null ? '' : amountText({ dose: opened(dose) });
  return (
    <p>
      {say('desk.order.from', { date: { date: from } })} <b>{amount}</b>
      {drawn === null ? null : ` · ${say('round.give.mark', { mark: drawn.mark, syringe: drawn.syringeName })}`}
      {mgPerKg === null ? null : ` · ${writePerKg(mgPerKg)}`}
      {grams === null ? null : ` · ${say('round.give.for-weight', { weight: { grams } })}`}
    </p>
  );
}

/** What stops it stands below; the figure is what the order comes to, so that it can be changed. */
const opened = (dose: Dose): Dose => ({ ...dose, stopped: false });
