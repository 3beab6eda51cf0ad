import { useState } from 'react';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product } from '../../../core/dosing/formulary.js';
import type { Gate } from '../../../core/dosing/gate.js';
import { perKgOfVolume, volumeAgainstLimits } from '../../../core/dosing/given.js';
import { writeMass, writePerKg, writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { VolumeField, volumeIn } from '../../parts/fields/volume-field.js';
import { OtherStrength } from '../../parts/other-strength.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice } from '../../parts/state.js';
import type { SaveState } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { StopLine } from './stop-line.js';
import type { ReallyGiven } from './use-give.js';

interface OrderInWordsProps {
  readonly product: Product;
  readonly dose: Dose;
  readonly words: string;
  /** Stops without whose word no amount at all is recorded. */
  readonly held: readonly Gate[];
  readonly state: SaveState;
  /** To whoever's word it takes. */
  readonly onHeld: () => void;
  readonly onClose: () => void;
  readonly onGiven: (given: ReallyGiven) => Promise<boolean>;
}

const outcomes = ['taken', 'partly-taken', 'not-taken'] as const;
const measures = ['volume', 'pieces'] as const;

/**
 * How much was given of an order whose amount is words: the person says it, nothing is filled in. What the typed volume
 * comes to in mg per kg is said back, and a volume outside the product's own limits is pointed at before it is recorded.
 */
export function OrderInWordsSheet(props: OrderInWordsProps) {
  const { product, dose, words, held, state, onHeld, onClose, onGiven } = props;
  const [by, setBy] = useState<(typeof measures)[number]>(
    product.ingredients[0]?.mg_per_ml == null ? 'pieces' : 'volume',
  );
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  const [pieces, setPieces] = useState('');
  const [outcome, setOutcome] = useState<(typeof outcomes)[number]>('taken');
  const volume = by === 'volume' ? volumeIn(text, null, chosen) : null;
  const is = volume === null ? null : perKgOfVolume(volume, product, dose);
  const against = volume === null ? null : volumeAgainstLimits(volume, product, dose);
  const ready = by === 'volume' ? volume !== null : pieces.trim() !== '';
  const done = async (): Promise<void> => {
    const given = { volume_ul: volume, pieces: by === 'pieces' ? pieces.trim() : '', outcome };
    if (await onGiven(given)) onClose();
  };
  return (
    <Sheet title={say('round.in-words.title', { product: product.name })} open onClose={onClose}>
      {held.map((gate) => (
        <StopLine key={gate.code} gate={gate} />
      ))}
      <OtherStrength dose={dose} />
      <p>
        <b>{say('drawup.in-words', { words })}</b>
      </p>
      <ChooseOne
        label={say('round.in-words.by')}
        options={measures.map((id) => ({ id, label: say(`round.in-words.by.${id}`) }))}
        value={by}
        onChange={setBy}
        big
      />
      {by === 'volume' ? (
        <VolumeField
          label={say('round.in-words.volume')}
          text={text}
          onText={setText}
          chosen={chosen}
          onChosen={setChosen}
        />
      ) : (
        <Field label={say('round.in-words.pieces')} value={pieces} onChange={setPieces} figure maxLength={20} />
      )}
      {is === null || volume === null ? null : (
        <p role="status">
          {say('round.in-words.is', {
            volume: writeVolume(volume),
            mass: writeMass(is.ug),
            dose: is.mgPerKg === null ? 'none' : writePerKg(is.mgPerKg),
            weight: { grams: dose.grams ?? 0 },
          })}
        </p>
      )}
      {against === null ? null : (
        <Notice tone="stop" live="alert">
          {say(against.why)}
        </Notice>
      )}
      <ChooseOne
        label={say('round.different.outcome')}
        options={outcomes.map((id) => ({ id, label: say(`round.outcome.${id}`) }))}
        value={outcome}
        onChange={setOutcome}
        big
      />
      <Trouble state={state} />
      <div className="act-pair">
        {held.length > 0 ? (
          <Act stop size="big" onAct={onHeld}>
            {say('round.gate.open')}
          </Act>
        ) : (
          <Act
            main={against === null}
            stop={against !== null}
            size="big"
            why={ready ? null : say('round.why.amount')}
            onAct={done}
          >
            {say(against === null ? 'round.different.record' : 'round.different.really')}
          </Act>
        )}
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
