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
} from '../../../core/protocol/document.js';
import { spanSaid } from '../../../core/protocol/spans.js';
import { sinceSaid } from '../../../core/protocol/steps.js';
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

export function targetLines(target: Target): SourcedValue[] {
  const previous = say('due.since.previous');
  return [
    ...ages.flatMap((limit) => {
      const age = target.age[limit];
      return age === undefined ? [] : [ageLine(say(`desk.doc.age.${limit}`), age)];
    }),
    ...target.intervals.flatMap(intervalLines),
    ...(target.repeats?.until == null
      ? []
      : [ageLine(say(`desk.doc.repeats.${target.repeats.ends}`), target.repeats.until)]),
    ...target.skip.flatMap((skip) => [
      line(say('desk.doc.skip'), skip.words, skip),
      ...skip.all.flatMap((condition) => conditionLines(condition)),
    ]),
    ...(target.restartAfter === null ? [] : [spanLine(say('desk.doc.restart'), target.restartAfter, previous)]),
  ];
}

function intervalLines(interval: Interval): SourcedValue[] {
  const from = say(sinceSaid(interval.from.is));
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

export function holdLines(hold: HoldRule): SourcedValue[] {
  const asked = [hold.question, say(`desk.doc.unknown.${hold.unknown}`), hold.note];
  const note = asked.filter((part) => part !== '').join(' ');
  const what = say(hold.present === 'hold' ? 'desk.doc.hold' : 'desk.doc.show');
  return [
    line(what, hold.words, { ...hold, note }, hold),
    ...(hold.lasts === null ? [] : [lengthLine(say('desk.doc.lasts', { words: hold.words }), hold.lasts)]),
    ...(hold.concerns.from === undefined ? [] : [ageLine(say('desk.doc.concerns-from'), hold.concerns.from)]),
  ];
}

export function scheduleLines(schedule: Schedule, nameOf: NameOf): SourcedValue[] {
  const { where, minimumWeight, sample, confirm, protectsAfter } = schedule;
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
    ...schedule.recordedOnly.map((one) => line(say('desk.doc.recorded-only'), one.class, one)),
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
    ...(protectsAfter === null ? [] : [lengthLine(say('desk.doc.protects-after'), protectsAfter)]),
    ...schedule.holds.flatMap(holdLines),
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
  const series = schedule.series.flatMap((one) => [...seriesStart(one), ...one.targets.flatMap(targetLines)]);
  return [...series, ...scheduleLines(schedule, nameOf)];
}

export const nameIn =
  (protocol: ProtocolDocument): NameOf =>
  (id) =>
    protocol.schedules.find((one) => one.id === id)?.name ?? id;
