import { useState } from 'react';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product } from '../../../core/dosing/formulary.js';
import { discardAt } from '../../../core/dosing/strength.js';
import { exactly } from '../../../core/quantity/exact.js';
import { writeStrength, writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { Figure } from '../../parts/figure.js';
import { Notice, State } from '../../parts/state.js';

/** What is known of the vial in the hand: the strength read on it, when it was made up, how it is diluted. */
export interface Hand {
  readonly strengthRead: string | null;
  readonly madeUp: { readonly mg_per_ml: string; readonly at: string } | null;
  readonly dilution: string | null;
}
const unknown: Hand = { strengthRead: null, madeUp: null, dilution: null };

/** Read once for one vial, it is not asked again for the next animal; kept while the page is. */
const read = new Map<string, Hand>();

export function useHand(product: Product, vial: string): readonly [Hand, (hand: Partial<Hand>) => void] {
  const key = `${product.id} ${vial}`;
  const [, again] = useState(0);
  const hand = read.get(key) ?? unknown;
  const change = (next: Partial<Hand>): void => {
    read.set(key, { ...hand, ...next });
    again((count) => count + 1);
  };
  return [hand, change];
}

interface InHandProps {
  readonly product: Product;
  readonly dose: Dose;
  readonly hand: Hand;
  readonly onHand: (hand: Partial<Hand>) => void;
  /** The vial's lot is not one of the shelter's list, so that nothing but its label says what it is. */
  readonly unlisted: boolean;
}

/** What only the label in the hand can say: its strength, how it was made up, by which recipe it is diluted. */
export function InHand(props: InHandProps) {
  return (
    <>
      <MadeUp {...props} />
      <Strength {...props} />
      <Dilutions {...props} />
    </>
  );
}

/** True while the label has to be read before anything is drawn. */
export const mustReadLabel = (product: Product, hand: Hand, unlisted: boolean): boolean =>
  unlisted && product.twins.length > 0 && hand.strengthRead === null;

function Strength({ product, hand, onHand, unlisted }: InHandProps) {
  const [asking, setAsking] = useState(false);
  const own = product.ingredients[0]?.mg_per_ml ?? null;
  if (own === null || product.twins.length === 0) return null;
  const right = hand.strengthRead !== null && exactly(hand.strengthRead).eq(own);
  if (!asking && right) {
    return <State tone="done">{say('drawup.label.says', { strength: writeStrength(own) })}</State>;
  }
  const strengths = [own, ...product.twins.map((twin) => twin.mg_per_ml)].sort((a, b) => exactly(a).cmp(b));
  if (!asking && hand.strengthRead === null && !unlisted) {
    return (
      <div className="lot-line">
        <State tone="attention">{say('drawup.label.look', { strength: writeStrength(own) })}</State>
        <Act size="mid" onAct={() => setAsking(true)}>
          {say('drawup.label.check')}
        </Act>
      </div>
    );
  }
  return (
    <fieldset className="bare stack tight">
      <legend>{say('drawup.label.which')}</legend>
      <div className="act-two">
        {strengths.map((strength) => (
          <Act
            key={strength}
            size="mid"
            main={hand.strengthRead === strength}
            onAct={() => {
              onHand({ strengthRead: strength });
              setAsking(false);
            }}
          >
            {writeStrength(strength)}
          </Act>
        ))}
      </div>
    </fieldset>
  );
}

function MadeUp({ product, hand, onHand }: InHandProps) {
  const { makeUp } = product;
  if (makeUp === null) return null;
  if (hand.madeUp !== null) {
    return (
      <Notice tone="done">
        {say('drawup.made-up.label', {
          strength: writeStrength(hand.madeUp.mg_per_ml),
          at: { instant: hand.madeUp.at },
          until: { instant: discardAt(hand.madeUp.at, makeUp.goodForHours) },
        })}{' '}
        <Act size="small" onAct={() => onHand({ madeUp: null })}>
          {say('drawup.made-up.again')}
        </Act>
      </Notice>
    );
  }
  return (
    <fieldset className="bare stack tight">
      <legend>{say('drawup.made-up.which', { diluent: makeUp.diluent })}</legend>
      <div className="act-two">
        {makeUp.choices.map(({ diluent_ml, mg_per_ml }) => (
          <Act key={mg_per_ml} size="mid" onAct={() => onHand({ madeUp: { mg_per_ml, at: now() } })}>
            {diluent_ml === null
              ? say('drawup.made-up.now', { strength: writeStrength(mg_per_ml) })
              : say('drawup.made-up.now-with', {
                  strength: writeStrength(mg_per_ml),
                  diluent: writeVolume(exactly(diluent_ml).mul(1000).toNumber()),
                })}
          </Act>
        ))}
      </div>
    </fieldset>
  );
}

function Dilutions({ product, dose, hand, onHand }: InHandProps) {
  const chosen = product.dilutions.find((one) => one.id === hand.dilution);
  if (chosen !== undefined) {
    return (
      <Notice tone="attention">
        {say('drawup.recipe.make', {
          stock: writeVolume(exactly(chosen.stock_ml).mul(1000).toNumber()),
          diluent: writeVolume(exactly(chosen.diluent_ml).mul(1000).toNumber()),
          what: chosen.diluent,
          hours: chosen.goodForHours,
        })}{' '}
        <Figure text={writeStrength(chosen.gives_mg_per_ml)} />{' '}
        <Act size="small" onAct={() => onHand({ dilution: null })}>
          {say('drawup.recipe.undo')}
        </Act>
      </Notice>
    );
  }
  const stopped = dose.gates.some((one) => one.code === 'not-this-way' && one.severity === 'stop');
  const offered = product.dilutions.filter((one) => stopped || dose.dilutionsThatHelp.includes(one.id));
  return offered.map((recipe) => (
    <Act key={recipe.id} size="mid" onAct={() => onHand({ dilution: recipe.id })}>
      {say('drawup.recipe.use', { strength: writeStrength(recipe.gives_mg_per_ml) })}
    </Act>
  ));
}
