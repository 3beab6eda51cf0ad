import type {
  Condition,
  HoldRule,
  Interval,
  ProtocolDocument,
  Schedule,
  Series,
  SourcedAge,
  SourcedSpan,
  Target,
} from '../../../core/protocol/document/document.js';
import { spanSaid } from '../../../core/protocol/document/spans.js';
import { sinceSaid } from '../../../core/protocol/document/steps.js';
import type { WatchRule, WeightBand } from '../../../core/protocol/document/weight-watch.js';
import { say } from '../../../words/say.js';
import type { SourcedValue } from './sourced.js';

/**
 * Every value of a protocol that has a source, as lines to be read before signing. What the schema can hold is shown
 * here or nowhere: protocol-lines.test.ts counts them.
 */
type Grounds = Pick<SourcedValue, 'source' | 'standing' | 'note'>;
type NameOf = (schedule: string) => string;

const ages = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended', 'maximum'] as const;
const spans = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended'] as const;

const line = (what: string, value: string, grounds: Grounds, part: object = grounds): SourcedValue => ({
  what,
  value,
  source: grounds.source,
  standing: grounds.standing,
  note: grounds.note,
  part,
});
const ageLine = (what: string, age: SourcedAge): SourcedValue =>
  line(what, say('desk.doc.age', { span: spanSaid(age.span), of: age.of }), age);
const spanLine = (what: string, span: SourcedSpan, from: string): SourcedValue =>
  line(what, say('desk.doc.after', { span: spanSaid(span.span), from }), span);
const lengthLine = (what: string, span: SourcedSpan): SourcedValue => line(what, say(spanSaid(span.span)), span);

export function targetLines(target: Target, nameOf: NameOf): SourcedValue[] {
  const previous = say('due.since.previous');
  return [
    ...ages.flatMap((limit) => {
      const age = target.age[limit];
      return age === undefined ? [] : [ageLine(say(`desk.doc.age.${limit}`), age)];
    }),
    ...target.intervals.flatMap((interval) => intervalLines(interval, nameOf)),
    ...(target.repeats?.until == null
      ? []
      : [ageLine(say(`desk.doc.repeats.${target.repeats.ends}`), target.repeats.until)]),
    ...target.skip.flatMap((skip) => [
      line(
        say('desk.doc.skip'),
        say('desk.doc.skip-of', {
          words: skip.words,
          all: skip.all.map((condition) => conditionWords(condition, nameOf)).join(say('desk.doc.and')),
        }),
        skip,
      ),
      ...skip.all.flatMap((condition) => conditionLines(condition)),
    ]),
    ...(target.restartAfter === null ? [] : [spanLine(say('desk.doc.restart'), target.restartAfter, previous)]),
  ];
}

/** What an interval is counted from, with its number, treatment or observation. */
export function sinceWords({ from }: Interval, nameOf: NameOf): string {
  switch (from.is) {
    case 'dose':
      return say('desk.doc.since.dose', { number: from.number });
    case 'schedule':
      return say('desk.doc.since.schedule', { schedule: nameOf(from.schedule) });
    case 'observation':
      return say('desk.doc.since.observation', { code: from.code });
    default:
      return say(sinceSaid(from.is));
  }
}

function intervalLines(interval: Interval, nameOf: NameOf): SourcedValue[] {
  const from = sinceWords(interval, nameOf);
  return spans.flatMap((limit) => {
    const span = interval[limit];
    return span === undefined ? [] : [spanLine(say(`desk.doc.interval.${limit}`), span, from)];
  });
}

/** The ages inside a condition; the rest of it is said in words. */
function conditionLines(condition: Condition): SourcedValue[] {
  const limits =
    condition.is === 'age' ? [condition.from, condition.under] : condition.is === 'doses' ? [condition.from] : [];
  return limits.flatMap((age) => (age === undefined ? [] : [ageLine(say('desk.doc.condition-age'), age)]));
}

export function conditionWords(condition: Condition, nameOf: NameOf): string {
  return say(`desk.doc.condition.${condition.is}`, {
    code: 'code' in condition ? condition.code : '',
    n: condition.is === 'doses' ? condition.atLeast : 0,
    schedule: 'schedule' in condition ? nameOf(condition.schedule) : '',
    result: condition.is === 'result' ? say(`desk.result.${condition.result}`) : '',
    state: condition.is === 'neutered' ? say(`parts.${condition.state}`) : '',
  });
}

export function seriesStart(series: Series): SourcedValue[] {
  const { from, under, when } = series.start;
  return [
    ...(from === undefined ? [] : [ageLine(say('desk.doc.start-from'), from)]),
    ...(under === undefined ? [] : [ageLine(say('desk.doc.start-under'), under)]),
    ...when.flatMap(conditionLines),
  ];
}

export function holdLines(hold: HoldRule, nameOf: NameOf): SourcedValue[] {
  const asked = [holdWhen(hold, nameOf), hold.question, say(`desk.doc.unknown.${hold.unknown}`), hold.note];
  const note = asked.filter((part) => part !== '').join(' ');
  const what = say(hold.present === 'hold' ? 'desk.doc.hold' : 'desk.doc.show');
  return [
    line(what, hold.words, { ...hold, note }, hold),
    ...(hold.lasts === null ? [] : [lengthLine(say('desk.doc.lasts', { words: hold.words }), hold.lasts)]),
    ...(hold.concerns.from === undefined ? [] : [ageLine(say('desk.doc.concerns-from'), hold.concerns.from)]),
  ];
}

/** What sets a hold off, and whom it can concern. */
function holdWhen({ when, concerns }: HoldRule, nameOf: NameOf): string {
  const { sex, unneutered } = concerns;
  return [
    when.is === 'observation'
      ? say('desk.doc.hold-when.observation', { code: when.code })
      : say('desk.doc.hold-when.result', { schedule: nameOf(when.of), result: say(`desk.result.${when.result}`) }),
    sex === undefined ? '' : say('desk.doc.concerns-sex', { sex: say(`desk.sex.${sex}`) }),
    unneutered === true ? say('desk.doc.concerns-unneutered') : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** What keeps an animal out of cleaner sections. */
export const keepApartLines = ({ keepApart }: Pick<ProtocolDocument, 'keepApart'>): SourcedValue[] =>
  keepApart.map((one) =>
    line(one.words, say('desk.doc.keep-apart-of', { code: one.code, section: say(`parts.rank.${one.rank}`) }), one),
  );

/** How long a treatment waits before people are asked about it. */
export const heldLongLines = ({ heldLong }: Pick<ProtocolDocument, 'heldLong'>): SourcedValue[] =>
  heldLong === null ? [] : [lengthLine(say('desk.doc.held-long-after'), heldLong)];

/** How long an order told by telephone counts without its veterinarian's own hand. */
export const countersignLines = ({ countersign }: Pick<ProtocolDocument, 'countersign'>): SourcedValue[] =>
  countersign === null
    ? []
    : [line(say('desk.doc.countersign-what'), say('desk.doc.watch.hours', { hours: countersign.hours }), countersign)];

/** What of an animal's weights is told, at one age. */
export const weightLines = ({ words, rules }: WeightBand): SourcedValue[] =>
  rules.map((rule) => line(words, say('desk.doc.watch-told', { what: watched(rule), tell: rule.severity }), rule));

function watched(rule: WatchRule): string {
  switch (rule.is) {
    case 'loss':
      return rule.percent === 0
        ? say('desk.doc.watch.loss-any', { within: hoursWords(rule.within_h) })
        : say('desk.doc.watch.loss', { percent: rule.percent, within: hoursWords(rule.within_h) });
    case 'no-gain':
      return say('desk.doc.watch.no-gain', { least: hoursWords(rule.least_h), most: hoursWords(rule.most_h) });
    case 'slow-gain':
      return say('desk.doc.watch.slow-gain', { perDay: { grams: rule.perDay_g }, least: hoursWords(rule.least_h) });
    case 'not-doubled':
      return say('desk.doc.watch.not-doubled', { day: rule.fromDay });
  }
}

const hoursWords = (hours: number): string =>
  hours % 24 === 0 && hours > 24
    ? say('desk.doc.watch.days', { days: hours / 24 })
    : say('desk.doc.watch.hours', { hours });

export function scheduleLines(schedule: Schedule, nameOf: NameOf): SourcedValue[] {
  const { where, minimumWeight, sample, confirm, how, protectsAfter } = schedule;
  const ranks = where?.ranks.map((rank) => say(`parts.rank.${rank}`)) ?? [];
  return [
    ...(where === null ? [] : [line(say('desk.doc.where'), ranks.join(', '), where)]),
    ...schedule.needsFirst.map((one) =>
      line(say('desk.doc.needs-first'), say(`desk.doc.needs.${one.result}`, { schedule: nameOf(one.schedule) }), one),
    ),
    ...schedule.apart.map((one) => line(say('desk.doc.apart'), apartWords(one.class, one), one)),
    ...schedule.apartIngredients.map((one) =>
      line(say('desk.doc.apart-ingredient'), apartWords(one.ingredient, one), one),
    ),
    ...schedule.recordedOnly.map((one) =>
      line(
        say('desk.doc.recorded-only'),
        say('desk.doc.recorded-of', { class: one.class, spaces: String(one.spaces) }),
        one,
      ),
    ),
    ...(minimumWeight === null
      ? []
      : [
          line(
            say('desk.doc.minimum-weight'),
            say('desk.doc.weight', { weight: { grams: minimumWeight.grams } }),
            minimumWeight,
          ),
        ]),
    ...(sample === null ? [] : [line(say('desk.doc.sample'), sample.preferred.join(', '), sample)]),
    ...(confirm === null ? [] : [line(say('desk.doc.confirm'), confirmWords(confirm), confirm)]),
    ...(how === null ? [] : [line(say('desk.doc.how'), how.steps.join(' '), how)]),
    ...(protectsAfter === null ? [] : [lengthLine(say('desk.doc.protects-after'), protectsAfter)]),
    ...schedule.holds.flatMap((hold) => holdLines(hold, nameOf)),
  ];
}

const apartWords = (
  other: string,
  { begins, ends }: Schedule['apart'][number] | Schedule['apartIngredients'][number],
): string => say('desk.doc.apart-of', { class: other, begins: spanSaid(begins), ends: spanSaid(ends) });

const confirmWords = ({ words, after }: NonNullable<Schedule['confirm']>): string =>
  after === null ? words : say('desk.doc.confirm-after', { words, span: spanSaid(after) });

/** All lines of one schedule, in the order of the page. */
export function everyLine(schedule: Schedule, nameOf: NameOf): SourcedValue[] {
  const at = (where: string, lines: readonly SourcedValue[]): SourcedValue[] => lines.map((one) => ({ ...one, where }));
  const series = schedule.series.flatMap((one) => [
    ...at(one.name, seriesStart(one)),
    ...one.targets.flatMap((target, index) => at(doseWords(one, index), targetLines(target, nameOf))),
  ]);
  return [...series, ...scheduleLines(schedule, nameOf)];
}

/** A series and its dose, counted from 1: the same words wherever a value is named outside its place on the page. */
export const doseWords = (series: Pick<Series, 'name'>, index: number): string =>
  say('desk.doc.dose-of', { series: series.name, number: index + 1 });

export const nameIn =
  (protocol: ProtocolDocument): NameOf =>
  (id) =>
    protocol.schedules.find((one) => one.id === id)?.name ?? id;
