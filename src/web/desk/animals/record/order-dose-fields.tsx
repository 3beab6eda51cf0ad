import { namesRange } from '../../../../core/animal/order-amount.js';
import { OrderUnit } from '../../../../core/dosing/ordered.js';
import { plain } from '../../../../core/quantity/exact.js';
import { readNumber } from '../../../../core/quantity/read-number.js';
import type { NewOrder } from '../../../../log/commands/order.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';

const hows = ['formulary', 'figure', 'words'] as const;
const pers = ['time', 'day'] as const;
const choosers = ['who-gives', 'medical'] as const;
const foods = ['any', 'with-food', 'empty-stomach'] as const;

/** A number as typed, and the reading that was chosen where it has two. */
export interface TypedNumber {
  readonly text: string;
  readonly chosen: string | null;
}
export const nothingTyped: TypedNumber = { text: '', chosen: null };

interface TypedStep {
  readonly id: number;
  readonly fromDay: string;
  readonly amount: TypedNumber;
  /** Empty for the rhythm that was before; else every so many days. */
  readonly everyDays: string;
}

/** How much is ordered, as typed. */
export interface TypedDose {
  readonly how: (typeof hows)[number];
  readonly amount: TypedNumber;
  readonly unit: OrderUnit;
  readonly per: (typeof pers)[number];
  readonly steps: readonly TypedStep[];
  readonly food: (typeof foods)[number];
  readonly words: string;
  /** Who chooses where the words leave a range open. */
  readonly chosenBy: (typeof choosers)[number] | null;
}

export const noDose: TypedDose = {
  how: 'formulary',
  amount: nothingTyped,
  unit: 'mg-per-kg',
  per: 'time',
  steps: [],
  food: 'any',
  words: '',
  chosenBy: null,
};

interface OrderDoseFieldsProps {
  readonly value: TypedDose;
  readonly onChange: (next: TypedDose) => void;
}

export function OrderDoseFields({ value, onChange }: OrderDoseFieldsProps) {
  const put = (patch: Partial<TypedDose>): void => onChange({ ...value, ...patch });
  const putStep = (id: number, patch: Partial<TypedStep>): void =>
    put({ steps: value.steps.map((one) => (one.id === id ? { ...one, ...patch } : one)) });
  return (
    <>
      <ChooseOne
        label={say('desk.order.dose')}
        options={hows.map((id) => ({ id, label: say(`desk.order.dose.${id}`) }))}
        value={value.how}
        onChange={(how) => put({ how })}
        flow
      />
      {value.how === 'figure' ? (
        <>
          <div className="row end">
            <NumberField
              label={say('desk.order.dose.amount')}
              value={value.amount}
              onChange={(amount) => put({ amount })}
              range
            />
            <Pick
              label={say('desk.order.dose.unit')}
              options={OrderUnit.options.map((id) => ({ id, label: say(`desk.order.unit.${id}`) }))}
              value={value.unit}
              onChange={(unit) => put({ unit })}
              narrow
            />
          </div>
          <RangeAsked value={value} onChange={put} />
          <ChooseOne
            label={say('desk.order.dose.per')}
            options={pers.map((id) => ({ id, label: say(`desk.order.dose.per.${id}`) }))}
            value={value.per}
            onChange={(per) => put({ per })}
            flow
          />
          {value.steps.map((step, at) => (
            <fieldset key={step.id} className="stack tight bare">
              <legend>{say('desk.order.step', { n: at + 2 })}</legend>
              <div className="row end">
                <Field
                  label={say('desk.order.step.from')}
                  value={step.fromDay}
                  onChange={(fromDay) => putStep(step.id, { fromDay })}
                  inputMode="numeric"
                  narrow
                />
                <NumberField
                  label={say('desk.order.step.amount', { unit: say(`desk.order.unit.${value.unit}`) })}
                  value={step.amount}
                  onChange={(amount) => putStep(step.id, { amount })}
                />
                <Field
                  label={say('desk.order.step.every')}
                  hint={say('desk.order.step.every-hint')}
                  value={step.everyDays}
                  onChange={(everyDays) => putStep(step.id, { everyDays })}
                  inputMode="numeric"
                  narrow
                />
                <Act onAct={() => put({ steps: value.steps.filter((one) => one.id !== step.id) })}>
                  {say('desk.order.step.out')}
                </Act>
              </div>
            </fieldset>
          ))}
          <Act onAct={() => put({ steps: [...value.steps, newStep(value.steps)] })}>{say('desk.order.step.more')}</Act>
        </>
      ) : null}
      <ChooseOne
        label={say('desk.order.food')}
        options={foods.map((id) => ({ id, label: say(`desk.order.food.${id}`) }))}
        value={value.food}
        onChange={(food) => put({ food })}
        flow
      />
      <Field
        label={say(value.how === 'words' ? 'desk.order.amount' : 'desk.order.manner')}
        hint={say(value.how === 'words' ? 'desk.order.amount-hint' : 'desk.order.manner-hint')}
        value={value.words}
        onChange={(words) => put({ words })}
        maxLength={300}
      />
      {value.how === 'words' && namesRange(value.words) ? (
        <ChooseOne
          label={say('desk.order.chosen-by')}
          options={choosers.map((id) => ({ id, label: say(`desk.order.chosen-by.${id}`) }))}
          value={value.chosenBy}
          onChange={(chosenBy) => put({ chosenBy })}
          flow
        />
      ) : null}
    </>
  );
}

interface RangeAskedProps {
  readonly value: TypedDose;
  readonly onChange: (patch: Partial<TypedDose>) => void;
}

/** A range that was typed as the amount: one end of it is ordered, or the order says in words who chooses. */
function RangeAsked({ value: { amount, unit, per }, onChange }: RangeAskedProps) {
  const range = rangeIn(amount.text);
  if (range === null) return null;
  const [low, high] = range;
  const ofUnit = say(`desk.order.unit.${unit}`);
  const text = say('desk.order.range-words', { low, high, unit: ofUnit, per });
  return (
    <fieldset className="row bare">
      <legend>{say('desk.order.range', { text: amount.text })}</legend>
      {range.map((one) => (
        <Act key={one} onAct={() => onChange({ amount: { text: one, chosen: null } })}>
          {say('desk.order.range.one', { amount: `${one}\u00a0${ofUnit}` })}
        </Act>
      ))}
      {choosers.map((chosenBy) => (
        <Act key={chosenBy} onAct={() => onChange({ how: 'words', words: text, chosenBy })}>
          {say('desk.order.range.by', { text, chosenBy })}
        </Act>
      ))}
    </fieldset>
  );
}

/** The two ends of a range as people type it: "5-10", "5 to 10"; null for what is none. */
export function rangeIn(text: string): readonly [string, string] | null {
  const found = /^\s*(\d+(?:\.\d+)?)\s*(?:-|\u2013|\u2212|to|or)\s*(\d+(?:\.\d+)?)\s*$/i.exec(text);
  const [low, high] = [found?.[1], found?.[2]];
  return low === undefined || high === undefined ? null : [low, high];
}

const newStep = (steps: readonly TypedStep[]): TypedStep => ({
  id: Math.max(0, ...steps.map(({ id }) => id)) + 1,
  fromDay: '',
  amount: nothingTyped,
  everyDays: '',
});

interface NumberFieldProps {
  readonly label: string;
  readonly value: TypedNumber;
  readonly onChange: (next: TypedNumber) => void;
  /** A range is asked about beside it. */
  readonly range?: true;
}

/** A number as people type it; one with two readings is asked about. */
export function NumberField({ label, value, onChange, range }: NumberFieldProps) {
  const asked = range === true && rangeIn(value.text) !== null;
  const reading = value.text.trim() === '' || asked ? null : readNumber(value.text);
  return (
    <div className="stack tight">
      <Field
        label={label}
        value={value.text}
        onChange={(text) => onChange({ text, chosen: null })}
        inputMode="decimal"
        narrow
        wrong={reading?.is === 'no' ? say(reading.why) : null}
      />
      {reading?.is === 'ask' ? (
        <fieldset className="row bare">
          <legend>{say(reading.why)}</legend>
          {reading.values.map((one) => (
            <Act
              key={plain(one)}
              main={value.chosen === plain(one)}
              onAct={() => onChange({ ...value, chosen: plain(one) })}
            >
              {plain(one)}
            </Act>
          ))}
        </fieldset>
      ) : null}
    </div>
  );
}

export function numberIn({ text, chosen }: TypedNumber): string | null {
  if (chosen !== null) return chosen;
  const reading = text.trim() === '' ? null : readNumber(text);
  return reading?.is === 'number' && !reading.value.isZero() ? plain(reading.value, 9) : null;
}

/** What was typed as terms of an order, or null while something cannot be read. */
export function readDose(typed: TypedDose): Pick<NewOrder, 'dose' | 'steps' | 'food' | 'amount' | 'chosenBy'> | null {
  const { how, unit, per, steps, food, words } = typed;
  const chosenBy = how === 'words' && namesRange(words) ? typed.chosenBy : null;
  const manner = { food: food === 'any' ? null : food, amount: words.trim(), chosenBy };
  if (how === 'words' && words.trim() === '') return null;
  if (how !== 'figure') return { dose: null, steps: [], ...manner };
  const amount = numberIn(typed.amount);
  if (amount === null) return null;
  const later = [];
  for (const step of steps) {
    const [fromDay, next, every] = [whole(step.fromDay), numberIn(step.amount), whole(step.everyDays)];
    if (fromDay === null || next === null || (every === null && step.everyDays.trim() !== '')) return null;
    const timing = every === null ? null : ({ is: 'days', every } as const);
    later.push({ fromDay, dose: { amount: next, unit, per }, timing });
  }
  return { dose: { amount, unit, per }, steps: later, ...manner };
}

const whole = (text: string): number | null => (/^[1-9]\d{0,2}$/.test(text.trim()) ? Number(text) : null);
