import { Button } from 'react-aria-components';
import { say } from '../../../words/say.js';

interface KeyPadProps {
  readonly text: string;
  readonly onText: (text: string) => void;
  /** Scales in grams have no decimal sign; one key less to slip on. */
  readonly decimals: boolean;
}

const digits = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;
/** More digits than any scale shows. */
const longest = 7;

/** Keys large enough for a gloved thumb, all in its reach; what they make is the text of the field, nothing more. */
export function KeyPad({ text, onText, decimals }: KeyPadProps) {
  const add = (sign: string): void => {
    if (text.length < longest) onText(text + sign);
  };
  return (
    <fieldset className="key-pad bare">
      <legend className="away">{say('drawup.weigh.keys')}</legend>
      {digits.map((digit) => (
        <Button key={digit} className="btn key" onPress={() => add(digit)}>
          {digit}
        </Button>
      ))}
      {decimals ? (
        <Button className="btn key" aria-label={say('drawup.weigh.point')} onPress={() => add('.')}>
          .
        </Button>
      ) : (
        <span />
      )}
      <Button className="btn key" onPress={() => add('0')}>
        0
      </Button>
      <Button className="btn key" aria-label={say('drawup.weigh.delete')} onPress={() => onText(text.slice(0, -1))}>
        ⌫
      </Button>
    </fieldset>
  );
}
