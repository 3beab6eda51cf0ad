import { useState } from 'react';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product, Syringe } from '../../../core/dosing/formulary.js';
import type { Gate } from '../../../core/dosing/gate.js';
import { compareWithDose, volumeAgainstLimits } from '../../../core/dosing/given.js';
import { readVolume } from '../../../core/quantity/read-volume.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { OtherStrength } from '../../parts/other-strength.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice } from '../../parts/state.js';
import type { SaveState } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { Counter } from '../around/counter.js';
import { StopLine } from './stop-line.js';
import { piecesOf, type ReallyGiven } from './use-give.js';

interface DifferentProps {
  readonly product: Product;
  readonly dose: Dose;
  readonly syringe: Syringe | null;
  /** A stop stands: nothing is filled in. */
  readonly stopped: boolean;
  /** Stops without whose word no amount at all is recorded. */
  readonly held: readonly Gate[];
  readonly state: SaveState;
  /** To whoever's word it takes. */
  readonly onHeld: () => void;
  readonly onClose: () => void;
  readonly onGiven: (given: ReallyGiven) => Promise<boolean>;
}

/** Most that the record takes. */
const most_ul = 100_000;
const outcomes = ['taken', 'partly-taken', 'not-taken'] as const;

/** What really happened, when it was not as drawn: another amount, or not all of it stayed in. */
export function DifferentSheet(props: DifferentProps) {
  const { product, dose, syringe, stopped, held, state, onHeld, onClose, onGiven } = props;
  const worked = dose.drawn?.volume_ul ?? dose.exact_ul ?? null;
  const planned = stopped ? null : worked;
  const byVolume = worked !== null || product.ingredients[0]?.mg_per_ml != null;
  const step = syringe?.mark_ul ?? 10;
  const [text, setText] = useState(planned === null ? '' : writeVolume(planned));
  const [pieces, setPieces] = useState(stopped ? '' : piecesOf(product, dose.grams));
  const [outcome, setOutcome] = useState<(typeof outcomes)[number]>('taken');
  const reading = text.trim() === '' ? null : readVolume(text, syringe?.scale ?? null);
  const volume = reading?.is === 'volume' ? reading.ul : null;
  const against = volume === null ? null : judge(volume, product, dose);
  const far = against?.severity === 'stop';
  const done = async (): Promise<void> => {
    if (await onGiven({ volume_ul: byVolume ? volume : null, pieces: byVolume ? '' : pieces, outcome })) onClose();
  };
  return (
    <Sheet title={say('round.different.title', { product: product.name })} open onClose={onClose}>
      {held.map((gate) => (
        <StopLine key={gate.code} gate={gate} />
      ))}
      <OtherStrength dose={dose} />
      {byVolume ? (
        <>
          <Counter
            label={say('round.different.amount')}
            value={volume ?? planned ?? 0}
            least={step}
            most={most_ul}
            step={step}
            write={writeVolume}
            onChange={(ul) => setText(writeVolume(ul))}
          />
          <Field
            label={say('round.different.typed')}
            value={text}
            onChange={setText}
            figure
            inputMode="decimal"
            wrong={reading?.is === 'no' ? say(reading.why) : null}
          />
          {reading?.is === 'ask' ? (
            <div className="act-two">
              {reading.readings.map((ul) => (
                <Act key={ul} size="mid" onAct={() => setText(writeVolume(ul))}>
                  {writeVolume(ul)}
                </Act>
              ))}
            </div>
          ) : null}
          {against === null ? null : (
            <Notice tone={against.severity === 'stop' ? 'stop' : 'attention'} live="alert">
              {say(against.why)}
            </Notice>
          )}
        </>
      ) : (
        <Field
          label={say(product.ingredients[0]?.mg_per_g != null ? 'round.different.grams' : 'round.different.pieces')}
          value={pieces}
          onChange={setPieces}
          figure
          maxLength={20}
        />
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
            main={!far}
            stop={far}
            size="big"
            why={(byVolume ? volume === null : pieces.trim() === '') ? say('round.why.amount') : null}
            onAct={done}
          >
            {say(far ? 'round.different.really' : 'round.different.record')}
          </Act>
        )}
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}

/** Against the dose; where none is worked out, or its rule is that of another strength, against the product's own limits. */
function judge(volume_ul: number, product: Product, dose: Dose): Gate | null {
  const against = compareWithDose(volume_ul, dose, product.tolerancePercent);
  if (against !== null || (dose.unrounded_ul !== null && dose.otherStrength === null)) return against;
  return volumeAgainstLimits(volume_ul, product, dose);
}
