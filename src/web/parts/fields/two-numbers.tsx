import { differingSigns } from '../../../core/chip/differing-signs.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';

interface NumberOf {
  /** What the number is: implanted, on record, read now. */
  readonly word: string;
  readonly code: string;
}

/** More than these are not counted out one by one. */
const mostNamed = 4;

/** Two chip numbers one above the other, with a frame around every sign in which they differ. */
export function TwoNumbers({ numbers }: { numbers: readonly [NumberOf, NumberOf] }) {
  const places = differingSigns(numbers[0].code, numbers[1].code);
  return (
    <div className="two-numbers">
      {numbers.map(({ word, code }) => (
        <div key={word}>
          <div className="small">{word}</div>
          <div className="mono signs">
            <span className="away">{chipText(code)}</span>
            <span aria-hidden="true">
              {[...code].map((sign, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a sign is known by its place in the number and by nothing else
                <span key={at} className={`chip-sign${places.includes(at + 1) ? ' differs' : ''}`}>
                  {sign}
                </span>
              ))}
            </span>
          </div>
        </div>
      ))}
      <p>
        {places.length > mostNamed
          ? say('parts.numbers-differ', { count: places.length })
          : say('parts.numbers-differ-at', { count: places.length, places: { list: places } })}
      </p>
    </div>
  );
}
