import { readWeight, type Weight, type WeightReading } from '../../../core/quantity/read-weight.js';
import type { WeightUnit } from '../../../core/quantity/units.js';
import { say } from '../../../words/say.js';
import { Act } from '../act.js';
import { Field } from './field.js';

interface WeightFieldProps {
  readonly label: string;
  readonly unit: WeightUnit;
  /** What stands in the field; it is never changed behind the person's back. */
  readonly text: string;
  readonly onText: (text: string) => void;
  /** The reading chosen when there are two; null otherwise. */
  readonly chosen: Weight | null;
  readonly onChosen: (weight: Weight | null) => void;
  readonly hint?: string;
  readonly autoFocus?: boolean;
  readonly onEnter?: () => void;
}

/** A weight as people type it, said back in grams, kilograms and pounds; two readings are asked about, never guessed. */
export function WeightField({
  label,
  unit,
  text,
  onText,
  chosen,
  onChosen,
  hint,
  autoFocus,
  onEnter,
}: WeightFieldProps) {
  const reading = text.trim() === '' ? null : readWeight(text, unit);
  return (
    <div className="stack tight">
      <Field
        label={say('parts.weight-label', { label, unit })}
        value={text}
        onChange={(next) => {
          onChosen(null);
          onText(next);
        }}
        inputMode="decimal"
        figure
        narrow
        {...(autoFocus === undefined ? {} : { autoFocus })}
        {...(hint === undefined ? {} : { hint })}
        {...(onEnter === undefined ? {} : { onEnter })}
        wrong={reading?.is === 'no' ? say(reading.why) : null}
        echo={reading?.is === 'weight' ? say(reading.weight.echo) : undefined}
      />
      {reading?.is === 'ask' ? (
        <fieldset className="stack tight bare">
          <legend>{say(reading.why)}</legend>
          <div className="row">
            {reading.readings.map((weight) => (
              <Act key={weight.exact_g} main={chosen?.grams === weight.grams} onAct={() => onChosen(weight)}>
                {say(weight.echo)}
              </Act>
            ))}
          </div>
        </fieldset>
      ) : null}
    </div>
  );
}

/** The weight that a field stands for now, or null while it is empty, unreadable or not yet chosen. */
export function weightIn(text: string, unit: WeightUnit, chosen: Weight | null): Weight | null {
  if (chosen !== null) return chosen;
  const reading: WeightReading | null = text.trim() === '' ? null : readWeight(text, unit);
  return reading?.is === 'weight' ? reading.weight : null;
}
