import { useState } from 'react';
import { Span } from '../../../../core/calendar.js';
import { spanSaid } from '../../../../core/protocol/spans.js';
import { say } from '../../../../words/say.js';
import { Field } from '../../../parts/field.js';

const units = ['years', 'months', 'weeks', 'days'] as const;

interface SpanFieldsProps {
  readonly label: string;
  readonly span: Span;
  /** Null while what is typed is no length of time. */
  readonly onChange: (span: Span | null) => void;
}

/** A length of time in the units of its source: 2 weeks are not turned into 14 days. An empty field is none of it. */
export function SpanFields({ label, span, onChange }: SpanFieldsProps) {
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(units.map((unit) => [unit, span[unit] === undefined ? '' : String(span[unit])])),
  );
  const read = spanIn(texts);
  const type = (unit: string, text: string): void => {
    const next = { ...texts, [unit]: text };
    setTexts(next);
    onChange(spanIn(next));
  };
  return (
    <fieldset className="bare stack tight">
      <legend>{label}</legend>
      <div className="row top">
        {units.map((unit) => (
          <Field
            key={unit}
            label={say(`protocol-desk.unit.${unit}`)}
            value={texts[unit] ?? ''}
            onChange={(text) => type(unit, text)}
            inputMode="numeric"
            narrow
            figure
          />
        ))}
      </div>
      {read === null ? (
        <p className="wrong">{say('protocol-desk.span-wrong')}</p>
      ) : (
        <p className="echo">{say(spanSaid(read))}</p>
      )}
    </fieldset>
  );
}

/** Whole numbers only; a minus is allowed, for sources that say "12 months less 4 days". */
export function spanIn(texts: Readonly<Record<string, string>>): Span | null {
  const typed = units.flatMap((unit) => {
    const text = (texts[unit] ?? '').trim().replace('−', '-');
    return text === '' ? [] : [[unit, /^-?\d{1,5}$/.test(text) ? Number(text) : Number.NaN] as const];
  });
  if (typed.length === 0 || typed.some(([, number]) => Number.isNaN(number))) return null;
  const span = Span.safeParse(Object.fromEntries(typed));
  return span.success ? span.data : null;
}
