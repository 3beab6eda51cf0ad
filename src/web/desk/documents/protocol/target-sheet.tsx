import { useState } from 'react';
import type { Interval, ProtocolDocument, Target, Trigger } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { Sheet } from '../../../parts/sheet.js';
import { withFrame } from './edited.js';
import { firstProblem, TakeFoot } from './take-foot.js';
import type { Way } from './ways.js';

interface TargetSheetProps {
  readonly document: ProtocolDocument;
  readonly way: Way;
  readonly target: Target;
  readonly what: string;
  readonly onDone: (document: ProtocolDocument) => void;
  readonly onClose: () => void;
}

const triggers = ['age', 'arrival', 'observation', 'while', 'clock', 'implant'] as const;
const starts = ['previous', 'dose', 'schedule', 'arrival', 'observation', 'implant'] as const;
const ends = ['once', 'with-a-dose-at-or-after', 'before'] as const;

/** What makes one dose due besides its ages and intervals: its trigger, its end, its times, where intervals begin. */
export function TargetSheet({ document, way, target, what, onDone, onClose }: TargetSheetProps) {
  const [is, setIs] = useState<Trigger['is']>(target.on.is);
  const [code, setCode] = useState('code' in target.on ? target.on.code : '');
  const [end, setEnd] = useState<(typeof ends)[number]>(target.repeats?.ends ?? 'once');
  const [times, setTimes] = useState(target.times.join(', '));
  const [from, setFrom] = useState(() => target.intervals.map(startOf));
  const or = target.on.is === 'observation' ? target.on.or : [];
  const needsCode = is === 'observation' || is === 'while' || is === 'clock';
  const edited = withFrame(document, way, {
    ...target,
    on: !needsCode ? { is } : is === 'observation' ? { is, code: code.trim(), or } : { is, code: code.trim() },
    repeats: end === 'once' ? null : { until: target.repeats?.until ?? null, ends: end },
    times: times.split(/[,;\s]+/).filter((one) => one !== ''),
    intervals: target.intervals.map((interval, at) => ({ ...interval, from: written(from[at]) })),
  });
  return (
    <Sheet title={say('protocol-desk.frame-of', { what })} open firm onClose={onClose} wide>
      <ChooseOne
        label={say('protocol-desk.frame.on')}
        options={triggers.map((id) => ({ id, label: say(`protocol-desk.trigger.${id}`) }))}
        value={is}
        onChange={setIs}
      />
      {needsCode ? (
        <Field
          label={say('protocol-desk.code')}
          hint={say('protocol-desk.code-hint')}
          value={code}
          onChange={setCode}
          maxLength={60}
        />
      ) : null}
      <ChooseOne
        label={say('protocol-desk.frame.ends')}
        options={ends.map((id) => ({ id, label: say(`protocol-desk.ends.${id}`) }))}
        value={end}
        onChange={setEnd}
      />
      {from.map((start, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: an interval has no other name than its place
        <div key={at} className="stack tight">
          <Pick
            label={say('protocol-desk.interval-from', { number: at + 1 })}
            options={starts.map((id) => ({ id, label: say(`protocol-desk.from.${id}`) }))}
            value={start.is}
            onChange={(next) => setFrom(from.map((one, i) => (i === at ? { ...one, is: next } : one)))}
          />
          {start.is === 'schedule' ? (
            <Pick
              label={say('desk.due.treatment')}
              options={document.schedules.map((one) => ({ id: one.id as string, label: one.name }))}
              value={start.text === '' ? null : start.text}
              onChange={(text) => setFrom(from.map((one, i) => (i === at ? { ...one, text } : one)))}
            />
          ) : null}
          {start.is === 'dose' || start.is === 'observation' ? (
            <Field
              label={say(start.is === 'dose' ? 'protocol-desk.dose-number' : 'protocol-desk.code')}
              value={start.text}
              onChange={(text) => setFrom(from.map((one, i) => (i === at ? { ...one, text } : one)))}
              maxLength={60}
              narrow
            />
          ) : null}
        </div>
      ))}
      <Field
        label={say('protocol-desk.frame.times')}
        hint={say('protocol-desk.times-hint')}
        value={times}
        onChange={setTimes}
        maxLength={100}
        narrow
      />
      <TakeFoot
        edited={edited}
        why={firstProblem(edited)}
        action={say('protocol-desk.take-frame')}
        onDone={onDone}
        onClose={onClose}
      />
    </Sheet>
  );
}

interface Start {
  readonly is: Interval['from']['is'];
  readonly text: string;
}

const startOf = ({ from }: Interval): Start => ({
  is: from.is,
  text:
    from.is === 'dose'
      ? String(from.number)
      : from.is === 'schedule'
        ? from.schedule
        : from.is === 'observation'
          ? from.code
          : '',
});

/** As it is in the file; what does not fit is said by the schema. */
function written(start: Start | undefined): unknown {
  if (start === undefined) return undefined;
  const { is, text } = start;
  switch (is) {
    case 'dose':
      return { is, number: /^\d+$/.test(text.trim()) ? Number(text) : text };
    case 'schedule':
      return { is, schedule: text };
    case 'observation':
      return { is, code: text.trim() };
    default:
      return { is };
  }
}
