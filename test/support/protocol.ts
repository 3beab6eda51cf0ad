import { readFileSync } from 'node:fs';
import type { HistoryEvent, Observation, PlacedHold, TestResult, Weighing } from '../../src/core/animal/animal.js';
import { addDays, addSpan, CalendarDate, type Span } from '../../src/core/calendar.js';
import { Product } from '../../src/core/dosing/formulary.js';
import { AnimalId, ProductId, RecordId, RunId, ScheduleId } from '../../src/core/ids.js';
import { choose } from '../../src/core/protocol/document/choose.js';
import { ProtocolDocument } from '../../src/core/protocol/document/document.js';
import { writeAt } from '../../src/core/protocol/document/paths.js';
import type { DueItem } from '../../src/core/protocol/due.js';
import { evaluate } from '../../src/core/protocol/engine/evaluate.js';
import { forecast } from '../../src/core/protocol/engine/forecast.js';
import type { Evaluated } from '../../src/core/protocol/evaluated.js';
import type { Catalogue, ProtocolInput } from '../../src/core/protocol/input.js';

/** Animals, products and protocols in trade words, for tests of the protocol engine. All invented. */
export const day = (text: string): CalendarDate => CalendarDate.parse(text);
export const schedule = (id: string): ScheduleId => ScheduleId.parse(id);

const readStarter = (): unknown =>
  JSON.parse(readFileSync(new URL('../../protocols/starter-protocol.json', import.meta.url), 'utf8'));

export const starter: ProtocolDocument = ProtocolDocument.parse(readStarter());

/** The starter protocol with options chosen, as `choice: option`. */
export function starterWith(options: Readonly<Record<string, string>>): ProtocolDocument {
  return Object.entries(options).reduce((protocol, [choice, option]) => {
    const chosen = choose(protocol, choice, option);
    if (!chosen.ok) throw new Error(JSON.stringify(chosen.why));
    return chosen.value;
  }, starter);
}

/** The starter protocol with one value written over; choices no longer say what is in force, so they are left out. */
export function starterChanged(at: readonly string[], value: unknown): ProtocolDocument {
  return ProtocolDocument.parse(writeAt({ ...starter, choices: [] }, at, value));
}

const source = 'test-source';
const grounds = { source, standing: 'read' } as const;
export const span = (length: Span) => ({ span: length, ...grounds });
export const age = (length: Span, of: 'youngest' | 'oldest' = 'youngest') => ({ span: length, of, ...grounds });

/** A protocol of one or more small schedules. */
export const protocolOf = (...schedules: readonly object[]): ProtocolDocument =>
  ProtocolDocument.parse({
    id: 'small',
    version: '1',
    title: 'A small protocol for one test',
    caution: 'For tests only.',
    sources: [{ id: source, title: 'The source named beside the test' }],
    schedules,
  });

/** A schedule to give something of class `what`, in one series of these targets. */
export const giving = (what: string, targets: readonly object[], more: object = {}) => ({
  id: what,
  name: what,
  action: 'give',
  visitOrder: 1,
  satisfiedBy: [what],
  series: [{ id: 'only', name: 'Only', targets }],
  ...more,
});

export const once = (id: string, more: object = {}) => ({ id, on: { is: 'age' }, ...more });

/** An interval from the dose before, as whole weeks and so on. */
export const afterPrevious = (limits: Readonly<Record<string, Span>>) => ({
  from: { is: 'previous' },
  ...Object.fromEntries(Object.entries(limits).map(([name, length]) => [name, span(length)])),
});

const product = (id: string, classes: readonly string[]) => ({
  id,
  name: id,
  ingredients: [{ name: id, mg_per_ml: null }],
  classes,
  form: 'liquid',
  route: 'by mouth',
  species: ['cat'],
  labelMinAge: null,
  labelMinWeight: null,
  dose: { by: 'fixed', ml: '1' },
  band: null,
  rounding: 'nearest',
  tolerancePercent: '10',
  needsWeight: false,
  prescription: false,
  source,
  standing: 'common-practice',
});

/** A formulary whose products have the name of the class they satisfy, with two-class ones as `a+b`. */
export const catalogueOf = (...classes: readonly string[]): Catalogue => ({
  products: classes.map((one) => Product.parse(product(one.replaceAll('+', '-and-'), one.split('+')))),
  kits: [],
});

export const starterProducts = catalogueOf(
  'core-vaccine-live',
  'core-vaccine-inactivated',
  'core-vaccine-intranasal',
  'roundworm',
  'topical-flea',
  'rabies-vaccine',
  'felv-vaccine',
  'coccidia',
  'tapeworm',
  'ear-mite',
);

type Animal = ProtocolInput['animal'];
export interface About extends Partial<Omit<Animal, 'born' | 'arrivedOn' | 'id'>> {
  readonly born?: string;
  readonly basis?: 'known' | 'estimated' | 'unknown';
  /** Oldest it may be, when the birth date is an estimate and `born` the youngest. */
  readonly bornFrom?: string;
  readonly arrived?: string;
}

/** A cat born 1 January 2026 in the shelter, unless told otherwise. */
export function cat(about: About = {}): Animal {
  const { born = '2026-01-01', bornFrom = born, arrived = born, ...others } = about;
  const { basis = bornFrom === born ? 'known' : 'estimated', ...rest } = others;
  return {
    id: AnimalId.parse('a1'),
    born: { earliest: day(bornFrom), latest: day(born), basis },
    arrivedOn: day(arrived),
    sex: 'male',
    neutered: 'unknown',
    left: null,
    history: [],
    observations: [],
    holds: [],
    chip: null,
    weighings: [],
    runs: [],
    ...rest,
  };
}

const record = (text: string): RecordId => RecordId.parse(text);
const moment = (on: string, time: string): string => `${on}T${time}:00Z`;

export const given = (
  product: string,
  on: string,
  more: { schedule?: string | null; substandard?: 'expired-lot' | 'withdrawn-lot' | 'not-taken'; time?: string } = {},
): HistoryEvent => ({
  what: 'given',
  record: record(`given-${product}-${on}-${more.time ?? ''}`),
  at: moment(on, more.time ?? '09:00'),
  on: day(on),
  schedule: more.schedule == null ? null : schedule(more.schedule),
  product: ProductId.parse(product),
  lot: null,
  substandard: more.substandard ?? null,
});

export const tested = (result: TestResult, on: string, of = 'felv-test', time = '09:00'): HistoryEvent => ({
  what: 'tested',
  record: record(`tested-${on}-${time}`),
  at: moment(on, time),
  on: day(on),
  schedule: schedule(of),
  run: RunId.parse(`run-${on}-${time}`),
  result,
});

export const chipped = (on: string, confirmed = true, code = '985112001234567'): HistoryEvent => ({
  what: 'chipped',
  record: record(`chipped-${on}`),
  at: moment(on, '09:00'),
  on: day(on),
  code,
  confirmed,
});

export const weighed = (on: string, grams = 900): HistoryEvent => ({
  what: 'weighed',
  record: record(`weighed-${on}`),
  at: moment(on, '09:00'),
  on: day(on),
  grams,
});

export const weight = (on: string, grams: number, doubtful = false): Weighing => ({
  record: record(`weight-${on}`),
  at: moment(on, '09:00'),
  on: day(on),
  grams,
  doubtful,
});

export const seen = (
  code: string,
  on: string,
  more: { state?: 'present' | 'absent'; until?: string } = {},
): Observation => ({
  record: record(`seen-${code}-${on}`),
  code,
  state: more.state ?? 'present',
  on: day(on),
  until: more.until === undefined ? null : day(more.until),
  note: '',
});

export const placedHold = (
  from: string,
  until: string | null,
  schedules: readonly string[] | 'all' = 'all',
): PlacedHold => ({
  record: record(`hold-${from}`),
  schedules: schedules === 'all' ? 'all' : schedules.map(schedule),
  code: 'other',
  from: day(from),
  until: until === null ? null : day(until),
  owner: null,
  recheckOn: null,
  note: '',
});

/** One animal under a protocol, asked about one schedule on one day. */
export function asking(animal: Animal, protocol: ProtocolDocument, formulary: Catalogue | null, of: string) {
  const input: ProtocolInput = { animal, formulary };
  return {
    on: (today: string): DueItem => {
      const item = forecast(input, protocol, day(today)).find((one) => one.schedule === of);
      if (item === undefined) throw new Error(`no item for ${of}`);
      return item;
    },
    past: (today: string): Evaluated[] => evaluate(input, protocol, day(today)).filter((one) => one.schedule === of),
  };
}

/** The days on which everything is done on its due day, from a day on, while the answer is due or not yet due. */
export function daysDoneOnTime(
  animal: Animal,
  protocol: ProtocolDocument,
  formulary: Catalogue | null,
  of: { readonly schedule: string; readonly product: string },
  limits: { readonly most: number; readonly to?: string },
): string[] {
  const history = [...animal.history];
  const days: string[] = [];
  let today = maximumOf(animal.arrivedOn, animal.born.latest);
  while (days.length < limits.most) {
    const item = asking({ ...animal, history }, protocol, formulary, of.schedule).on(today);
    // A complete series may be kept up years later; that is not part of it.
    if (item.due === null || item.status === 'complete') break;
    if (limits.to !== undefined && item.due > limits.to) break;
    today = maximumOf(today, item.due);
    days.push(today);
    history.push(given(of.product, today));
  }
  return days;
}

const maximumOf = (a: CalendarDate, b: CalendarDate): CalendarDate => (a > b ? a : b);

export const plus = (text: string, length: Span): string => addSpan(day(text), length);
export const dayBefore = (text: string): string => addDays(day(text), -1);
export const dayAfter = (text: string): string => addDays(day(text), 1);
