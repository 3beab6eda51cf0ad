import { OrderUnit } from '../../../../core/dosing/ordered.js';
import { WallTime } from '../../../../core/wall-time.js';
import type { NewOrder } from '../../../../log/commands/order.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick as PickOne } from '../../../parts/fields/pick.js';
import { NumberField, nothingTyped, numberIn, type TypedNumber } from './order-dose-fields.js';

const timings = ['days', 'times', 'hours', 'as-needed'] as const;
const endings = ['after-days', 'after-doses', 'when-ended'] as const;
const turns = ['1', '2', '3'] as const;
const mostUnits = ['times', ...OrderUnit.options] as const;

/** How often and until when, as typed. */
export interface OrderTimes {
  readonly timing: (typeof timings)[number];
  readonly every: string;
  /** Wall-clock times, parted by commas; the first one for every so many hours. */
  readonly at: string;
  /** What it is given for as needed. */
  readonly reason: string;
  /** Its place among the orders for one reason. */
  readonly turn: (typeof turns)[number];
  /** Hours at least between two; empty for what the rhythm says. */
  readonly leastHours: TypedNumber;
  /** The most in any 24 hours; empty for none of its own. */
  readonly most: TypedNumber;
  readonly mostUnit: (typeof mostUnits)[number];
  readonly ends: (typeof endings)[number];
  readonly count: string;
}

export const usualTimes: OrderTimes = {
  timing: 'days',
  every: '1',
  at: '08:00, 20:00',
  reason: '',
  turn: '1',
  leastHours: nothingTyped,
  most: nothingTyped,
  mostUnit: 'times',
  ends: 'after-days',
  count: '3',
};

interface OrderTimingFieldsProps {
  readonly value: OrderTimes;
  readonly onChange: (next: OrderTimes) => void;
}

export function OrderTimingFields({ value, onChange }: OrderTimingFieldsProps) {
  const put = (patch: Partial<OrderTimes>): void => onChange({ ...value, ...patch });
  const { timing } = value;
  return (
    <>
      <ChooseOne
        label={say('desk.order.timing')}
        options={timings.map((id) => ({ id, label: say(`desk.order.timing.${id}`) }))}
        value={timing}
        // How many days is not how many hours: it is typed anew.
        onChange={(next) => put(next === timing ? {} : { timing: next, every: next === 'days' ? '1' : '' })}
        flow
      />
      {timing === 'as-needed' ? (
        <>
          <Field
            label={say('desk.order.reason')}
            hint={say('desk.order.reason-hint')}
            value={value.reason}
            onChange={(reason) => put({ reason })}
            required
            maxLength={120}
          />
          <ChooseOne
            label={say('desk.order.turn')}
            options={turns.map((id) => ({ id, label: say(`desk.order.turn.${id}`) }))}
            value={value.turn}
            onChange={(turn) => put({ turn })}
            flow
          />
        </>
      ) : (
        <div className="row end">
          {timing === 'times' ? null : (
            <Field
              label={say(`desk.order.every.${timing}`)}
              value={value.every}
              onChange={(every) => put({ every })}
              inputMode="numeric"
              narrow
              wrong={isRange(value.every) ? say('desk.order.every-range') : null}
            />
          )}
          {timing === 'days' ? null : (
            <Field
              label={say(`desk.order.at.${timing}`)}
              hint={say('desk.order.at-hint')}
              value={value.at}
              onChange={(at) => put({ at })}
              narrow
            />
          )}
        </div>
      )}
      <div className="row end">
        <NumberField
          label={say(timing === 'as-needed' ? 'desk.order.least-needed' : 'desk.order.least')}
          value={value.leastHours}
          onChange={(leastHours) => put({ leastHours })}
        />
        <NumberField label={say('desk.order.most')} value={value.most} onChange={(most) => put({ most })} />
        <PickOne
          label={say('desk.order.most-unit')}
          options={mostUnits.map((id) => ({ id, label: say(`desk.order.unit.${id}`) }))}
          value={value.mostUnit}
          onChange={(mostUnit) => put({ mostUnit })}
          narrow
        />
      </div>
      <ChooseOne
        label={say('desk.order.ends')}
        options={endings.map((id) => ({ id, label: say(`desk.order.end-way.${id}`) }))}
        value={value.ends}
        onChange={(ends) => put({ ends })}
        flow
      />
      {value.ends === 'when-ended' ? null : (
        <Field
          label={say(`desk.order.count.${value.ends}`)}
          value={value.count}
          onChange={(count) => put({ count })}
          inputMode="numeric"
          narrow
        />
      )}
    </>
  );
}

/** "4-6", "4 to 6": which of them is for the veterinarian to say. */
const isRange = (text: string): boolean => /\d\s*(?:-|\u2013|\u2212|to|or|\/)\s*\d/i.test(text);

const whole = (text: string): number | null => (/^\d{1,4}$/.test(text.trim()) ? Number(text) : null);

/** What was typed as terms of an order, or null while something cannot be read. */
export function readTimes(
  typed: OrderTimes,
): Pick<NewOrder, 'timing' | 'startsAt' | 'leastHours' | 'mostADay' | 'ends'> | null {
  const { ends, count } = typed;
  const rhythm = readRhythm(typed);
  const many = whole(count);
  if (rhythm === null || (ends !== 'when-ended' && (many === null || many < 1))) return null;
  const [least, most] = [numberIn(typed.leastHours), numberIn(typed.most)];
  if (least === null && (typed.leastHours.text.trim() !== '' || typed.timing === 'as-needed')) return null;
  if (most === null && typed.most.text.trim() !== '') return null;
  return {
    ...rhythm,
    leastHours: least === null ? null : Number(least),
    mostADay: most === null ? null : { amount: most, unit: typed.mostUnit },
    ends:
      ends === 'when-ended'
        ? { is: ends }
        : ends === 'after-days'
          ? { is: ends, days: many ?? 1 }
          : { is: ends, doses: many ?? 1 },
  };
}

function readRhythm({ timing, every, at, reason, turn }: OrderTimes): Pick<NewOrder, 'timing' | 'startsAt'> | null {
  if (timing === 'as-needed') {
    return reason.trim() === ''
      ? null
      : { timing: { is: timing, reason: reason.trim(), turn: Number(turn) }, startsAt: null };
  }
  const often = whole(every);
  const times = at
    .split(/[,;\s]+/)
    .filter((part) => part !== '')
    .map((part) => part.padStart(5, '0'));
  const good = times.length > 0 && times.every((time) => WallTime.safeParse(time).success);
  if (timing !== 'times' && (often === null || often < 1)) return null;
  if (timing !== 'days' && !good) return null;
  return {
    timing: timing === 'times' ? { is: 'times', times: [...times].sort() } : { is: timing, every: often ?? 1 },
    startsAt: timing === 'hours' ? (times[0] ?? null) : null,
  };
}
