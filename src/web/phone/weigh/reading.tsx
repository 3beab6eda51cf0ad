import { readWeight, type Weight } from '../../../core/quantity/read-weight.js';
import type { WeightUnit } from '../../../core/quantity/units.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { weightIn } from '../../parts/fields/weight-field.js';

export const readingOf = (text: string, unit: WeightUnit, chosen: Weight | null): Weight | null =>
  weightIn(text, unit, chosen);

interface ReadingsProps {
  readonly text: string;
  readonly unit: WeightUnit;
  readonly chosen: Weight | null;
  readonly onChosen: (weight: Weight) => void;
}

/** What was typed, said back in grams, kilograms and pounds; two readings are asked about, nonsense is named. */
export function Readings({ text, unit, chosen, onChosen }: ReadingsProps) {
  if (text === '') return <p className="soft small">{say('drawup.weigh.type')}</p>;
  const reading = readWeight(text, unit);
  switch (reading.is) {
    case 'weight':
      return <p aria-live="polite">{say(reading.weight.echo)}</p>;
    case 'no':
      return <p className="wrong">{say(reading.why)}</p>;
    case 'ask':
      return (
        <fieldset className="bare stack tight">
          <legend>{say(reading.why)}</legend>
          <div className="act-two">
            {reading.readings.map((weight) => (
              <Act key={weight.exact_g} size="mid" main={chosen?.grams === weight.grams} onAct={() => onChosen(weight)}>
                {say(weight.echo)}
              </Act>
            ))}
          </div>
        </fieldset>
      );
  }
}
