import { Button } from 'react-aria-components';
import { say } from '../../../words/say.js';
import { Figure } from '../../parts/figure.js';

interface CounterProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step?: number;
  /** How the value is written, with its unit. */
  readonly write?: (value: number) => string;
  readonly onChange: (value: number) => void;
}

/** A number set with two large buttons: nothing to type with gloves on. Counting is meant to be tapped fast. */
export function Counter({ label, value, least, most, step = 1, write = String, onChange }: CounterProps) {
  return (
    <fieldset className="field plain-set">
      <legend>{label}</legend>
      <div className="count-line">
        <Button
          className="btn"
          aria-label={say('round.less', { what: label })}
          isDisabled={value <= least}
          onPress={() => onChange(Math.max(least, value - step))}
        >
          {'−'}
        </Button>
        <span aria-live="polite">
          <Figure text={write(value)} big />
        </span>
        <Button
          className="btn"
          aria-label={say('round.more', { what: label })}
          isDisabled={value >= most}
          onPress={() => onChange(Math.min(most, value + step))}
        >
          {'+'}
        </Button>
      </div>
    </fieldset>
  );
}
