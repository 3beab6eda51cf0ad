import { WallTime } from '../../../../core/wall-time.js';
import type { NewOrder } from '../../../../log/commands/order.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';

const timings = ['days', 'times', 'hours'] as const;
const endings = ['after-days', 'after-doses', 'when-ended'] as const;

/** How often and until when, as typed. */
export interface OrderTimes {
  readonly timing: (typeof timings)[number];
  readonly every: string;
  /** Wall-clock times, parted by commas; the first one for every so many hours. */
  readonly at: string;
  readonly ends: (typeof endings)[number];
  readonly count: string;
}

interface OrderTimingFieldsProps {
  readonly value: OrderTimes;
  readonly onChange: (next: OrderTimes) => void;
}

export function OrderTimingFields({ value, onChange }: OrderTimingFieldsProps) {
  const put = (patch: Partial<OrderTimes>): void => onChange({ ...value, ...patch });
  return (
    <>
      <ChooseOne
        label={say('desk.order.timing')}
        options={timings.map((id) => ({ id, label: say(`desk.order.timing.${id}`) }))}
        value={value.timing}
        // How many days is not how many hours: it is typed anew.
        onChange={(timing) => put(timing === value.timing ? {} : { timing, every: timing === 'days' ? '1' : '' })}
        flow
      />
      <div className="row end">
        {value.timing === 'times' ? null : (
          <Field
            label={say(`desk.order.every.${value.timing}`)}
            value={value.every}
            onChange={(every) => put({ every })}
            inputMode="numeric"
            narrow
          />
        )}
        {value.timing === 'days' ? null : (
          <Field
            label={say(`desk.order.at.${value.timing}`)}
            hint={say('desk.order.at-hint')}
            value={value.at}
            onChange={(at) => put({ at })}
            narrow
          />
        )}
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

const whole = (text: string): number | null => (/^\d{1,4}$/.test(text.trim()) ? Number(text) : null);

/** What was typed as terms of an order, or null while something cannot be read. */
export function readTimes({
  timing,
  every,
  at,
  ends,
  count,
}: OrderTimes): Pick<NewOrder, 'timing' | 'startsAt' | 'ends'> | null {
  const often = whole(every);
  const times = at
    .split(/[,;\s]+/)
    .filter((part) => part !== '')
    .map((part) => part.padStart(5, '0'));
  const good = times.length > 0 && times.every((time) => WallTime.safeParse(time).success);
  const many = whole(count);
  if (timing !== 'times' && (often === null || often < 1)) return null;
  if (timing !== 'days' && !good) return null;
  if (ends !== 'when-ended' && (many === null || many < 1)) return null;
  return {
    timing: timing === 'times' ? { is: 'times', times: [...times].sort() } : { is: timing, every: often ?? 1 },
    startsAt: timing === 'hours' ? (times[0] ?? null) : null,
    ends:
      ends === 'when-ended'
        ? { is: ends }
        : ends === 'after-days'
          ? { is: ends, days: many ?? 1 }
          : { is: ends, doses: many ?? 1 },
  };
}
