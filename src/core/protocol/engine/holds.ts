import { holdNamed } from '../../animal/named.js';
import { addSpanTo, asDay, type CalendarDate, type DayNumber, dayFromNumber, dayNumber } from '../../calendar.js';
import { conditionGate, foundSaid } from '../../dosing/conditions.js';
import { type Said, said } from '../../said.js';
import { foundAgainst, notStopped } from '../about-conditions.js';
import type { HoldRule, Schedule } from '../document/document.js';
import type { Hold } from '../due.js';
import { ageReached, asNumber, type Catalogue, type Known, known, presentSince, type Subject } from '../input.js';
import type { Progress } from '../progress.js';
import { productsFor } from './products.js';
import { confirmIn } from './to-confirm.js';
import { isComplete } from './walk.js';

/**
 * What kind of reason holds: a person's word, a rule of the protocol that applies, one that nobody could decide, something
 * that has to come first, the label, a condition of every product there is, the least weight, or what the tool itself waits for.
 */
export type HoldKind = 'placed' | 'rule' | 'unknown' | 'first' | 'label' | 'condition' | 'weight' | 'built-in';

export interface KindOfHold {
  readonly is: HoldKind;
  readonly hold: Hold;
}

export interface Standstill {
  /** The hold that lasts longest of those that cover the day; null when nothing holds it. */
  readonly hold: Hold | null;
  /** Every hold that covers the day, in the order they were found. */
  readonly all: readonly KindOfHold[];
  /** What to find out or to keep in mind, although it is not held. */
  readonly asks: readonly Said[];
}

/**
 * What holds a schedule on the day it would be done, and what people should ask first. A rule that cannot be decided,
 * because nobody has said, is not applied unless the protocol says so; its question is shown.
 * Source of that: CDC, CDSi logic specification 4.5, section 7.3.
 */
export function standstillOn(subject: Subject, schedule: Schedule, on: DayNumber): Standstill {
  const all: KindOfHold[] = [];
  const asks: Said[] = [];
  const add = (is: HoldKind, ...holds: readonly Hold[]): void => {
    for (const one of holds) all.push({ is, hold: one });
  };
  const built = builtIn(subject, schedule);
  if (built !== null) add('built-in', built);
  // Hardly any animal has one, and this is asked for each animal and schedule: looked at before a list is made.
  if (subject.input.animal.holds.length > 0) add('placed', ...placed(subject, schedule, on));
  for (const rule of schedule.holds) {
    const { state, since, until } = stateOf(subject, rule, on);
    if (state === 'present') {
      if (rule.present === 'hold')
        add('rule', { ...hold(rule.id, until, said('due.hold.rule', { words: rule.words })), from: asDate(since) });
      else asks.push(said('due.ask.rule', { words: rule.words }));
    } else if (state === 'unknown' && rule.unknown === 'hold') {
      const question = rule.question || rule.words;
      add('unknown', hold(`${rule.id}-unknown`, null, said('due.hold.unknown', { question })));
    } else if (state === 'unknown' && rule.unknown === 'ask') {
      asks.push(said('due.ask.unknown', { question: rule.question || rule.words }));
    }
  }
  if (schedule.needsFirst.length > 0) add('first', ...neededFirst(subject, schedule));
  const young = labelWait(subject, schedule, on);
  if (young !== null) add('label', young);
  const against = conditionWait(subject, schedule, on);
  if (against.hold !== null) add('condition', against.hold);
  asks.push(...against.asks);
  const light = weightWait(subject, schedule);
  if (light?.hold != null) add('weight', light.hold);
  if (light?.ask != null) asks.push(light.ask);
  return { hold: longest(all), all, asks };
}

const hold = (code: string, until: DayNumber | null, why: Said): Hold => ({
  code,
  until: asDate(until),
  why,
});

const asDate = (day: DayNumber | null): CalendarDate | null => (day === null ? null : dayFromNumber(day));

function longest(all: readonly KindOfHold[]): Hold | null {
  let chosen: Hold | null = null;
  for (const { hold: one } of all) {
    if (chosen === null) chosen = one;
    else if (chosen.until !== null && (one.until === null || one.until > chosen.until)) chosen = one;
  }
  return chosen;
}

/** A second chip is never put in, and no second sample drawn, because the first has not been read yet. */
function builtIn(subject: Subject, schedule: Schedule): Hold | null {
  if (schedule.action === 'chip') {
    const { chip, history } = subject.input.animal;
    const unread = history.findLast((event) => event.what === 'chipped' && !event.confirmed);
    const code = chip !== null && !chip.confirmed ? chip.code : unread?.what === 'chipped' ? unread.code : null;
    return code === null ? null : hold('chip-not-confirmed', null, said('due.hold.chip-not-confirmed', { chip: code }));
  }
  if (schedule.action !== 'test') return null;
  for (const run of subject.input.animal.runs) {
    const begun = run.startedAt ?? run.drawnAt;
    if (run.schedule !== schedule.id || run.readRecord !== null || run.result !== 'running' || begun === null) continue;
    // The run's day in the shelter's zone is at most one day from its day in UTC; older ones are given up.
    const day = dayInUtc(begun);
    if (day === null || Math.abs(subject.today - day) > 1) continue;
    return hold('test-running', null, said('due.hold.test-running', { at: { instant: begun } }));
  }
  return null;
}

function dayInUtc(instant: string): DayNumber | null {
  const read = /^(\d{4}-\d{2}-\d{2})T/.exec(instant)?.[1];
  return read === undefined ? null : asNumberOrNull(read);
}

function placed(subject: Subject, schedule: Schedule, on: DayNumber): Hold[] {
  const holds: Hold[] = [];
  for (const one of subject.input.animal.holds) {
    if (one.schedules !== 'all' && !one.schedules.includes(schedule.id)) continue;
    const until = asNumber(one.until);
    if (on < dayNumber(one.from) || (until !== null && on > until)) continue;
    const { from, owner, recheckOn } = one;
    holds.push({ ...hold(one.code, until, said('due.hold.placed', { what: holdNamed(one) })), from, owner, recheckOn });
  }
  return holds;
}

function stateOf(subject: Subject, rule: HoldRule, on: DayNumber): Pick<Known, 'state' | 'since' | 'until'> {
  if (rule.when.is === 'result') return stateOfResult(subject, rule, rule.when.of, rule.when.result, on);
  const { state, until } = known(subject, rule.when.code, on, rule.lasts?.span ?? null);
  if (state === 'present') return { state, since: presentSince(subject, rule.when.code), until };
  return { state: concerns(subject, rule, on) ? state : 'absent', since: null, until: null };
}

/** The result of a test stands until it is answered by an observation under the rule's own id, noted as absent. */
function stateOfResult(
  subject: Subject,
  rule: HoldRule,
  of: Schedule['id'],
  result: 'reactive' | 'negative',
  on: DayNumber,
): Pick<Known, 'state' | 'since' | 'until'> {
  const schedule = subject.scheduleOf(of);
  const tests =
    schedule === undefined ? [] : subject.progressOf(schedule).judged.filter((one) => one.done.result !== null);
  const past = tests.filter((one) => one.done.on <= subject.today);
  const found = past.findLast((one) => one.done.result === result);
  if (found !== undefined) {
    const answer = known(subject, rule.id, on);
    const answered = answer.state === 'absent' && answer.since !== null && answer.since >= found.done.on;
    return { state: answered ? 'absent' : 'present', since: found.done.on, until: null };
  }
  return { state: past.length > 0 || !concerns(subject, rule, on) ? 'absent' : 'unknown', since: null, until: null };
}

function concerns(subject: Subject, rule: HoldRule, on: DayNumber): boolean {
  const { sex, neutered } = subject.input.animal;
  if (rule.concerns.sex !== undefined && sex !== 'unknown' && sex !== rule.concerns.sex) return false;
  if (rule.concerns.unneutered === true && neutered === 'yes') return false;
  return rule.concerns.from === undefined || on >= ageReached(subject, rule.concerns.from);
}

function neededFirst(subject: Subject, schedule: Schedule): Hold[] {
  const holds: Hold[] = [];
  for (const needed of schedule.needsFirst) {
    const other = subject.scheduleOf(needed.schedule);
    if (other === undefined) continue;
    const progress = subject.progressOf(other);
    if (progress.series === null) continue;
    if (!isComplete(subject, progress)) {
      holds.push(hold('needs-first', null, said('due.hold.needs-first', { schedule: other.name })));
    } else if (needed.result === 'negative' && isHeldByReactive(subject, other, progress)) {
      holds.push(hold('reactive-first', null, said('due.hold.reactive-first', { schedule: other.name })));
    }
  }
  return holds;
}

/** A reactive test holds what asks for a negative one, until another method has not confirmed it. */
const isHeldByReactive = (subject: Subject, schedule: Schedule, { judged }: Progress): boolean =>
  judged.some(({ done }) => done.result === 'reactive') && confirmIn(subject, schedule)?.state !== 'not-confirmed';

function weightWait(subject: Subject, schedule: Schedule): { hold?: Hold; ask?: Said } | null {
  const least = schedule.minimumWeight;
  if (least === null) return null;
  const weighing = subject.input.animal.weighings.findLast(
    (one) => !one.doubtful && dayNumber(one.on) <= subject.today,
  );
  const needed = { grams: least.grams };
  if (weighing === undefined) return { ask: said('due.ask.weight', { least: needed }) };
  if (weighing.grams >= least.grams) return null;
  const values = { least: needed, weight: { grams: weighing.grams }, on: { date: weighing.on } };
  return { hold: hold('under-weight', null, said('due.hold.under-weight', values)) };
}

/** Waits for the least age on a label, or of a standing order, of the first product that may be used. */
function labelWait(subject: Subject, schedule: Schedule, on: DayNumber): Hold | null {
  const { formulary } = subject.input;
  if (schedule.labelAge === 'leave' || formulary === null) return null;
  const products = formulary.products.filter((one) => one.classes.some((name) => schedule.satisfiedBy.includes(name)));
  const from = Math.min(...products.map((product) => youngestFor(subject, product)));
  if (products.length === 0 || on >= from) return null;
  return hold('under-label-age', from - 1, said('due.hold.under-label-age', { date: { date: dayFromNumber(from) } }));
}

/** Waits while a condition speaks against every product that may be used; of the first that may, what is to be asked. */
function conditionWait(subject: Subject, schedule: Schedule, on: DayNumber): { hold: Hold | null; asks: Said[] } {
  const { input, today } = subject;
  if (schedule.action !== 'give' || input.formulary === null) return { hold: null, asks: [] };
  const { products, stop } = notStopped(input, productsFor(schedule, input.formulary), on, today);
  if (stop !== null) {
    return { hold: hold(conditionGate(stop.condition), stop.until, foundSaid(stop)), asks: [] };
  }
  const [first] = products;
  const found = first === undefined ? [] : foundAgainst(input, first, on, today);
  return { hold: null, asks: found.map(foundSaid) };
}

/** First day on which a product may be used on the youngest that the animal may be. */
function youngestFor(subject: Subject, product: Catalogue['products'][number]): DayNumber {
  if (product.labelMinAge === null) return Number.NEGATIVE_INFINITY;
  const orders = subject.input.formulary?.standingOrders ?? [];
  const allowed = orders.filter(
    (one) => one.product === product.id && one.allows === 'below-label-age' && dayNumber(one.until) >= subject.today,
  );
  const ages = [product.labelMinAge, ...allowed.map((one) => one.minAge ?? {})];
  return Math.min(...ages.map((age) => addSpanTo(subject.born.youngest, age)));
}

const asNumberOrNull = (text: string): DayNumber | null => {
  const day = asDay(text);
  return day === null ? null : dayNumber(day);
};
