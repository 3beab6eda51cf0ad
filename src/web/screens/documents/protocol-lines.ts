import type {
  HoldRule,
  Interval,
  Schedule,
  Series,
  SourcedAge,
  SourcedSpan,
  Target,
} from '../../../core/protocol/document.js';
import { spanSaid } from '../../../core/protocol/spans.js';
import { sinceSaid } from '../../../core/protocol/trace.js';
import { say } from '../../../words/say.js';
import type { SourcedValue } from './sourced.js';

const ages = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended', 'maximum'] as const;
const spans = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended'] as const;

const ageLine = (what: string, age: SourcedAge): SourcedValue => ({
  what,
  value: say('desk.doc.age', { span: spanSaid(age.span), of: age.of }),
  source: age.source,
  standing: age.standing,
  note: age.note,
});
const spanLine = (what: string, span: SourcedSpan, from: string): SourcedValue => ({
  what,
  value: say('desk.doc.after', { span: spanSaid(span.span), from }),
  source: span.source,
  standing: span.standing,
  note: span.note,
});

export function targetLines(target: Target): SourcedValue[] {
  const lines: SourcedValue[] = [];
  for (const limit of ages) {
    const age = target.age[limit];
    if (age !== undefined) lines.push(ageLine(say(`desk.doc.age.${limit}`), age));
  }
  for (const interval of target.intervals) lines.push(...intervalLines(interval));
  if (target.repeats?.until != null)
    lines.push(ageLine(say(`desk.doc.repeats.${target.repeats.ends}`), target.repeats.until));
  for (const skip of target.skip)
    lines.push({
      what: say('desk.doc.skip'),
      value: skip.words,
      source: skip.source,
      standing: skip.standing,
      note: skip.note,
    });
  if (target.restartAfter !== null)
    lines.push(spanLine(say('desk.doc.restart'), target.restartAfter, say('due.since.previous')));
  return lines;
}

function intervalLines(interval: Interval): SourcedValue[] {
  const from = say(sinceSaid(interval.from.is));
  return spans.flatMap((limit) => {
    const span = interval[limit];
    return span === undefined ? [] : [spanLine(say(`desk.doc.interval.${limit}`), span, from)];
  });
}

export function seriesStart(series: Series): SourcedValue[] {
  const { from, under } = series.start;
  return [
    ...(from === undefined ? [] : [ageLine(say('desk.doc.start-from'), from)]),
    ...(under === undefined ? [] : [ageLine(say('desk.doc.start-under'), under)]),
  ];
}

export const holdLine = (hold: HoldRule): SourcedValue => ({
  what: say(hold.present === 'hold' ? 'desk.doc.hold' : 'desk.doc.show'),
  value: hold.words,
  source: hold.source,
  standing: hold.standing,
  note: [hold.question, say(`desk.doc.unknown.${hold.unknown}`), hold.note].filter((part) => part !== '').join(' '),
});

export function scheduleLines(schedule: Schedule, nameOf: (id: string) => string): SourcedValue[] {
  return [
    ...schedule.needsFirst.map(({ schedule: first, result, source, standing, note }) => ({
      what: say('desk.doc.needs-first'),
      value: say(`desk.doc.needs.${result}`, { schedule: nameOf(first) }),
      source,
      standing,
      note,
    })),
    ...schedule.apart.map(({ class: other, begins, ends, source, standing, note }) => ({
      what: say('desk.doc.apart'),
      value: say('desk.doc.apart-of', { class: other, begins: spanSaid(begins), ends: spanSaid(ends) }),
      source,
      standing,
      note,
    })),
    ...schedule.recordedOnly.map(({ class: other, source, standing, note }) => ({
      what: say('desk.doc.recorded-only'),
      value: other,
      source,
      standing,
      note,
    })),
    ...(schedule.minimumWeight === null
      ? []
      : [
          {
            what: say('desk.doc.minimum-weight'),
            value: say('desk.doc.weight', { weight: { grams: schedule.minimumWeight.grams } }),
            source: schedule.minimumWeight.source,
            standing: schedule.minimumWeight.standing,
            note: schedule.minimumWeight.note,
          },
        ]),
  ];
}
