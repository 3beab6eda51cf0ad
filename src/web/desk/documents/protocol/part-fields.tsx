import { useState } from 'react';
import { rankOrder, SectionRank } from '../../../../core/biosecurity/section.js';
import { Span } from '../../../../core/calendar.js';
import { say } from '../../../../words/say.js';
import { ChooseOne, ChooseSome, Tick } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { SpanFields } from './span-fields.js';

export type Part = Readonly<Record<string, unknown>>;

interface PartFieldsProps {
  /** The value as it was opened: it says which fields there are, whatever is typed into them. */
  readonly opened: Part;
  /** The value as it stands now. */
  readonly part: Part;
  /** `undefined` for a value that cannot be read yet. */
  readonly onChange: (key: string, value: unknown) => void;
}

const spans = ['span', 'begins', 'ends', 'after'] as const;
const lines = ['words', 'question', 'class', 'ingredient'] as const;
/** Fields with a few fixed answers, each with words of its own. */
const oneOf = {
  of: ['youngest', 'oldest'],
  present: ['hold', 'show'],
  unknown: ['go-on', 'ask', 'hold'],
} as const;
/** Each is a pair of its own: not every answer goes with every field. */
function optionsOf(key: keyof typeof oneOf) {
  if (key === 'of') return oneOf.of.map((id) => ({ id, label: say(`protocol-desk.of.${id}`) }));
  if (key === 'present') return oneOf.present.map((id) => ({ id, label: say(`protocol-desk.present.${id}`) }));
  return oneOf.unknown.map((id) => ({ id, label: say(`protocol-desk.unknown.${id}`) }));
}
const samples = ['whole-blood', 'plasma', 'serum'] as const;

/** The fields of one sourced value: whatever of it can be typed or chosen. What stands inside it has lines of its own. */
export function PartFields({ opened, part, onChange }: PartFieldsProps) {
  return (
    <>
      {spans.map((key) => {
        const span = Span.safeParse(opened[key]);
        return span.success ? (
          <SpanFields
            key={key}
            label={say(`protocol-desk.field.${key}`)}
            span={span.data}
            onChange={(next) => onChange(key, next ?? undefined)}
          />
        ) : null;
      })}
      {lines.map((key) => {
        const text = part[key];
        return typeof text === 'string' ? (
          <Field
            key={key}
            label={say(`protocol-desk.field.${key}`)}
            value={text}
            onChange={(next) => onChange(key, next)}
            lines={key === 'words' || key === 'question'}
            maxLength={300}
          />
        ) : null;
      })}
      {(Object.keys(oneOf) as (keyof typeof oneOf)[]).map((key) => {
        const chosen = part[key];
        return typeof chosen === 'string' ? (
          <ChooseOne<string>
            key={key}
            label={say(`protocol-desk.field.${key}`)}
            options={optionsOf(key)}
            value={chosen}
            onChange={(next) => onChange(key, next)}
          />
        ) : null;
      })}
      <RareFields opened={opened} part={part} onChange={onChange} />
    </>
  );
}

/** A weight, places, kinds of blood: each on one kind of value only. */
function RareFields({ opened, part, onChange }: PartFieldsProps) {
  const ranks = SectionRank.array().safeParse(part.ranks);
  const preferred = Array.isArray(part.preferred) ? samples.filter((one) => isIn(part.preferred, one)) : null;
  return (
    <>
      {typeof opened.grams === 'number' ? (
        <GramsField grams={opened.grams} onChange={(grams) => onChange('grams', grams)} />
      ) : null}
      {typeof part.spaces === 'boolean' ? (
        <Tick
          label={say('protocol-desk.field.spaces')}
          value={part.spaces}
          onChange={(next) => onChange('spaces', next)}
        />
      ) : null}
      {ranks.success ? (
        <ChooseSome
          label={say('protocol-desk.field.ranks')}
          options={[...SectionRank.options]
            .sort((a, b) => rankOrder(a) - rankOrder(b))
            .map((id) => ({ id, label: say(`parts.rank.${id}`) }))}
          value={ranks.data}
          onChange={(next) => onChange('ranks', next)}
        />
      ) : null}
      {preferred === null ? null : (
        <ChooseSome
          label={say('protocol-desk.field.preferred')}
          options={samples.map((id) => ({ id, label: say(`protocol-desk.preferred.${id}`) }))}
          value={preferred}
          onChange={(next) => onChange('preferred', next)}
        />
      )}
    </>
  );
}

/** Whole grams; what is typed stays in the field while it is none. */
function GramsField({ grams, onChange }: { grams: number; onChange: (grams: number | undefined) => void }) {
  const [text, setText] = useState(String(grams));
  const read = (typed: string): number | undefined =>
    /^[1-9]\d{0,5}$/.test(typed.trim()) ? Number(typed.trim()) : undefined;
  return (
    <Field
      label={say('protocol-desk.field.grams')}
      value={text}
      onChange={(typed) => {
        setText(typed);
        onChange(read(typed));
      }}
      wrong={read(text) === undefined ? say('protocol-desk.grams-wrong', { text }) : null}
      inputMode="numeric"
      narrow
      figure
    />
  );
}

const isIn = (list: unknown, one: string): boolean => Array.isArray(list) && list.includes(one);
