import { useState } from 'react';
import type { Span } from '../../../../core/calendar.js';
import { spanSaid } from '../../../../core/protocol/document/spans.js';
import { say } from '../../../../words/say.js';
import { Field } from '../../../parts/fields/field.js';
import { type SpanText, spanIn, textOfSpan, units, whole } from './span-text.js';

interface SpanFieldsProps {
  readonly label: string;
  readonly span: Span;
  /** Null while what is typed is no length of time. */
  readonly onChange: (span: Span | null) => void;
}

/** A length of time in the units of its source: 2 weeks are not turned into 14 days. An empty field is none of it. */
export function SpanFields({ label, span, onChange }: SpanFieldsProps) {
  const [texts, setTexts] = useState<SpanText>(() => textOfSpan(span));
  const read = spanIn(texts);
  const type = (unit: string, text: string): void => {
    const next = { ...texts, [unit]: text };
    setTexts(next);
    const is = spanIn(next);
    onChange(is.ok ? is.span : null);
  };
  return (
    <fieldset className="bare stack tight">
      <legend className="label">{label}</legend>
      <div className="span-fields">
        {units.map((unit) => {
          const text = texts[unit] ?? '';
          return (
            <Field
              key={unit}
              label={say(`protocol-desk.unit.${unit}`)}
              value={text}
              onChange={(next) => type(unit, next)}
              wrong={whole(text) === null ? say('protocol-desk.not-whole', { text }) : null}
              inputMode="numeric"
              figure
            />
          );
        })}
      </div>
      <p className={read.ok || read.why === 'not-whole' ? 'echo' : 'wrong'} role="status">
        {read.ok ? say(spanSaid(read.span)) : read.why === 'not-whole' ? '' : say(`protocol-desk.span.${read.why}`)}
      </p>
    </fieldset>
  );
}
