import type { OrderOpens } from '../../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../../core/calendar.js';
import type { Gate } from '../../../../core/dosing/gate.js';
import { say } from '../../../../words/say.js';
import { Tick } from '../../../parts/fields/choices.js';
import { DayField } from '../../../parts/fields/day-field.js';
import { Field } from '../../../parts/fields/field.js';
import { Sentence } from '../../../parts/sentence.js';
import { Notice } from '../../../parts/state.js';

/** A stop of the label that the veterinarian opens with an order, as typed. */
export interface TypedOpen {
  readonly gate: OrderOpens['gate'];
  readonly reason: string;
  readonly until: CalendarDate | null;
}

interface OrderOpensFieldsProps {
  /** Every stop of the label once. */
  readonly stops: readonly Gate[];
  readonly value: readonly TypedOpen[];
  /** The last day of the order where it has one. */
  readonly until: CalendarDate | null;
  readonly onChange: (next: readonly TypedOpen[]) => void;
}

/** Stops of the label: each is opened here, by the veterinarian's reason and last day, or it stops at the draw-up. */
export function OrderOpensFields({ stops, value, until, onChange }: OrderOpensFieldsProps) {
  return stops.map(({ code, why }) => {
    const gate = code as OrderOpens['gate'];
    const typed = value.find((one) => one.gate === gate);
    const put = (patch: Partial<TypedOpen>): void =>
      onChange(value.map((one) => (one.gate === gate ? { ...one, ...patch } : one)));
    return (
      <Notice key={gate} tone="stop">
        <Sentence what={why} />
        <Tick
          label={say('desk.order.opens')}
          note={say('desk.order.opens-note')}
          value={typed !== undefined}
          onChange={(on) =>
            onChange(on ? [...value, { gate, reason: '', until }] : value.filter((one) => one.gate !== gate))
          }
        />
        {typed === undefined ? null : (
          <>
            <Field
              label={say('desk.order.opens-why')}
              value={typed.reason}
              onChange={(reason) => put({ reason })}
              required
              maxLength={300}
            />
            <DayField
              label={say('desk.order.opens-until')}
              value={typed.until}
              onChange={(day) => put({ until: day })}
            />
          </>
        )}
      </Notice>
    );
  });
}

/** What is opened of these stops; null while a reason or a last day is missing. */
export function readOpens(stops: readonly Gate[], typed: readonly TypedOpen[]): OrderOpens[] | null {
  const opens: OrderOpens[] = [];
  for (const { gate, reason, until } of typed) {
    if (!stops.some(({ code }) => code === gate)) continue;
    if (reason.trim() === '' || until === null) return null;
    opens.push({ gate, reason: reason.trim(), until });
  }
  return opens;
}
