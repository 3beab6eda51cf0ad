import { z } from 'zod';
import { type HistoryEvent, Neutered, Sex } from '../../animal/animal.js';
import { OrderTerms, type PlacedOrder } from '../../animal/vet-order.js';
import { SectionRank } from '../../biosecurity/section.js';
import { CalendarDate } from '../../calendar.js';
import type { FormularyDocument } from '../../dosing/formulary.js';
import { AnimalId, ProductId, RecordId, RunId, ScheduleId } from '../../ids.js';
import { no, type Outcome, ok, type Said } from '../../said.js';
import { WallTime } from '../../wall-time.js';
import type { ProtocolDocument } from '../document/document.js';
import { withVariant } from '../document/variant.js';
import type { DueItem, DueStatus, DueTime, TraceStep } from '../due.js';
import type { ProtocolInput } from '../input.js';
import { forecast } from './forecast.js';

const on = CalendarDate;
const result = z.enum(['negative', 'reactive', 'invalid', 'not-valid']);

/** One line in of the `forecast` calculator: an animal and what has been done to it; days as YYYY-MM-DD. */
export const ForecastInput = z.strictObject({
  /** A known day, or both ends of an estimate. */
  born: z.union([on, z.strictObject({ earliest: on, latest: on })]),
  arrived_on: on,
  /** The day to forecast for, when it is not the one of the call. */
  on: on.optional(),
  sex: Sex.default('unknown'),
  neutered: Neutered.default('unknown'),
  /** Infection rank of the section it is in, for what is done only in some. */
  section: SectionRank.nullable().default(null),
  /** A variant of the protocol that is switched on where it is. */
  variant: z.string().min(1).nullable().default(null),
  given: z
    .array(
      z.strictObject({
        on,
        product: ProductId,
        schedule: ScheduleId.nullable().default(null),
        fault: z.enum(['expired-lot', 'withdrawn-lot', 'not-taken']).nullable().default(null),
        /** For an order: the item that was confirmed, and when it was really given. */
        due_at: z
          .strictObject({ on, at: z.union([WallTime, z.literal('')]) })
          .nullable()
          .default(null),
        time: WallTime.optional(),
      }),
    )
    .default([]),
  /** Orders of a veterinarian; what is given for the first of them has the schedule `order-1`, and so on. */
  orders: z.array(OrderTerms).default([]),
  tests: z.array(z.strictObject({ on, schedule: ScheduleId, result })).default([]),
  chipped_on: on.nullable().default(null),
  weights: z.array(z.strictObject({ on, grams: z.number().int().min(1).max(20_000) })).default([]),
  observations: z
    .array(
      z.strictObject({
        on,
        code: z.string().min(1).max(60),
        state: z.enum(['present', 'absent']).default('present'),
        until: on.nullable().default(null),
      }),
    )
    .default([]),
  /** Only these schedules; all of the protocol when left out. */
  schedules: z.array(ScheduleId).optional(),
});
export type ForecastInput = z.input<typeof ForecastInput>;

export interface ForecastLine {
  readonly schedule: ScheduleId;
  readonly name: string;
  readonly action: DueItem['action'];
  readonly dose: number;
  readonly status: DueStatus;
  readonly earliest_on: CalendarDate | null;
  readonly due_on: CalendarDate | null;
  readonly overdue_after: CalendarDate | null;
  readonly latest_on: CalendarDate | null;
  readonly hold: string | null;
  readonly hold_until: CalendarDate | null;
  readonly because: Said;
  readonly asks: readonly Said[];
  readonly times: readonly DueTime[];
  readonly sources: readonly string[];
  /** Every rule that gave a date, in the order asked; `bound` marks the one that decided the due day. */
  readonly trace: readonly TraceStep[];
}

/** One line out. `signed` is always false: a calculator is given a document, not a signature. */
export interface ForecastOutput {
  readonly on: CalendarDate;
  readonly protocol: string;
  readonly signed: false;
  readonly items: readonly ForecastLine[];
}

export interface ForecastContext {
  readonly protocol: ProtocolDocument;
  readonly formulary: FormularyDocument;
  readonly today: CalendarDate;
}

/** The `forecast` calculator: what comes next for one animal by a protocol, or the sentence why not. */
export function calculateForecast(
  input: z.output<typeof ForecastInput>,
  { protocol: document, formulary, today }: ForecastContext,
): Outcome<ForecastOutput> {
  const protocol = input.variant === null ? document : withVariant(document, input.variant);
  if (protocol === null) return no('due.order.unknown', { what: input.variant ?? '' });
  const day = input.on ?? today;
  const born = typeof input.born === 'string' ? { earliest: input.born, latest: input.born } : input.born;
  if (born.earliest > born.latest) return no('log.birth-reversed');
  const unknown = input.given.find((one) => !formulary.products.some((product) => product.id === one.product));
  if (unknown !== undefined) return no('dose.product-unknown', { product: unknown.product });
  const history = historyOf(input);
  const later = [...history, ...input.observations].find((one) => one.on > day);
  if (later !== undefined) return no('cli.forecast.after-the-day', { on: { date: later.on }, day: { date: day } });
  const animal: ProtocolInput['animal'] = {
    id: AnimalId.parse('given'),
    born: { ...born, basis: born.earliest === born.latest ? 'known' : 'estimated' },
    arrivedOn: input.arrived_on,
    sex: input.sex,
    neutered: input.neutered,
    left: null,
    history,
    observations: input.observations.map((one) => ({ ...one, record: idOf('seen'), note: '' })),
    holds: [],
    chip: input.chipped_on === null ? null : { code: 'given', confirmed: true, record: idOf('chip') },
    weighings: history.flatMap((one) =>
      one.what === 'weighed' ? [{ record: one.record, at: one.at, on: one.on, grams: one.grams, doubtful: false }] : [],
    ),
    runs: [],
    orders: input.orders.map((terms, at): PlacedOrder => ({ record: idOf(`${at + 1}`), terms, ended: null })),
  };
  const wanted = input.schedules;
  const items = forecast({ animal, formulary, rank: input.section }, protocol, day)
    .filter((item) => wanted === undefined || wanted.includes(item.schedule))
    .map(lineOf);
  return ok({ on: day, protocol: `${protocol.id}@${protocol.version}`, signed: false, items });
}

const idOf = (text: string): RecordId => RecordId.parse(text);

function historyOf(input: z.output<typeof ForecastInput>): HistoryEvent[] {
  const noon = (day: CalendarDate): string => `${day}T12:00:00.000Z`;
  const events: HistoryEvent[] = [
    ...input.given.map(
      (one, at): HistoryEvent => ({
        what: 'given',
        record: idOf(`given-${at}`),
        at: one.time === undefined ? noon(one.on) : `${one.on}T${one.time}:00.000Z`,
        on: one.on,
        schedule: one.schedule,
        product: one.product,
        lot: null,
        substandard: one.fault,
        dueAt: one.due_at,
        ...(one.time === undefined ? {} : { wall: one.time }),
      }),
    ),
    ...input.tests.map(
      (one, at): HistoryEvent => ({
        what: 'tested',
        record: idOf(`test-${at}`),
        at: noon(one.on),
        on: one.on,
        schedule: one.schedule,
        run: RunId.parse(`run-${at}`),
        result: one.result,
      }),
    ),
    ...input.weights.map(
      (one, at): HistoryEvent => ({
        what: 'weighed',
        record: idOf(`weight-${at}`),
        at: noon(one.on),
        on: one.on,
        grams: one.grams,
      }),
    ),
  ];
  if (input.chipped_on !== null) {
    const { chipped_on: on } = input;
    const here = on >= input.arrived_on;
    const chip = { what: 'chipped', record: idOf('chip'), at: noon(on), on, code: 'given', confirmed: true } as const;
    events.push({ ...chip, implanted: here });
  }
  return events.sort((one, other) => (one.on < other.on ? -1 : one.on > other.on ? 1 : 0));
}

const lineOf = (item: DueItem): ForecastLine => ({
  schedule: item.schedule,
  name: item.scheduleName,
  action: item.action,
  dose: item.dose,
  status: item.status,
  earliest_on: item.earliest,
  due_on: item.due,
  overdue_after: item.overdueAfter,
  latest_on: item.latest,
  hold: item.hold?.code ?? null,
  hold_until: item.hold?.until ?? null,
  because: item.because,
  asks: item.asks ?? [],
  times: item.times ?? [],
  sources: item.sources,
  trace: item.trace,
});
