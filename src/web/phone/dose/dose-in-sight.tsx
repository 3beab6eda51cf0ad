import type { Dose } from '../../../core/dosing/dose.js';
import type { Product } from '../../../core/dosing/formulary.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { Figure } from '../../parts/figure.js';
import { kept } from '../../parts/kept.js';
import { Sentence } from '../../parts/sentence.js';
import { State } from '../../parts/state.js';
import { InSight, LotInSight } from '../around/bits.js';
import type { Passed } from './pass-gate.js';

interface DoseInSightProps {
  /** What is given, and by which way: the receipt above may be of another product. */
  readonly product: Product;
  readonly dose: Dose;
  readonly passed: readonly Passed[];
  /** As it stands on the label; empty while nobody has said which. */
  readonly lot: string;
}

/** What is about to be recorded as given: amount, mark of the plunger and lot; or what stands in the way. */
export function DoseInSight({ product, dose, passed, lot }: DoseInSightProps) {
  const stops = dose.gates.filter((gate) => gate.severity === 'stop' && !passed.some((one) => one.gate === gate.code));
  if (stops.length > 0) {
    return (
      <InSight>
        {stops.map((gate) => (
          <State key={gate.code} tone="stop">
            {say(`gate.${gate.code}`)}
          </State>
        ))}
      </InSight>
    );
  }
  return (
    <InSight>
      <span className="product">{say('round.give.in-sight', { product: product.name, route: product.route })}</span>
      <HowMuch dose={dose} />
      {lot === '' ? <State tone="attention">{say('round.lot.not-said')}</State> : <LotInSight lot={lot} />}
    </InSight>
  );
}

function HowMuch({ dose }: { dose: Dose }) {
  const { drawn, places, inWords } = dose;
  if (inWords !== null) {
    return (
      <span>
        {say('drawup.in-words', { words: inWords })} <b>{say('drawup.in-words.short')}</b>
      </span>
    );
  }
  if (drawn !== null) {
    const volume = writeVolume(drawn.volume_ul);
    return (
      <>
        <b className="amount">
          {places === 1 ? null : `${places} × `}
          <Figure text={volume} />
        </b>
        <span className="mark">
          {drawn.mark === volume ? say('round.give.at-mark', { mark: drawn.mark }) : drawn.mark}
        </span>
      </>
    );
  }
  if (dose.pieces !== null) {
    return (
      <b className="amount">
        <Sentence what={dose.pieces} />
      </b>
    );
  }
  return dose.exact_ul === null ? (
    <span>{say('round.give.no-figure')}</span>
  ) : (
    <b className="amount">
      <Figure text={writeVolume(dose.exact_ul)} />
    </b>
  );
}

/** What changes what the hand does, where the hand is: above the button, and once. */
export function ForTheHand({ cautions }: { cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <ul className="plain for-the-hand">
      {cautions.map((caution) => (
        <li key={caution}>
          <span className="g" aria-hidden="true">
            △{' '}
          </span>
          {kept(caution)}
        </li>
      ))}
    </ul>
  );
}
