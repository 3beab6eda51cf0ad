import { useState } from 'react';
import { lampCode } from '../../../../core/animal/lamp.js';
import type { Weight } from '../../../../core/quantity/read-weight.js';
import { correct } from '../../../../log/commands/animal.js';
import { withdrawRecord } from '../../../../log/commands/shelter.js';
import type { LogRecord } from '../../../../log/record.js';
import { tell } from '../../../../told/tell.js';
import { say } from '../../../../words/say.js';
import { now } from '../../../clock.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { WeightField, weightIn } from '../../../parts/fields/weight-field.js';
import { WhenField } from '../../../parts/fields/when-field.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { useShelter, useWorld } from '../../../store/here.js';
import { CorrectGiven } from './correct-given.js';

const ways = ['time', 'value', 'withdraw'] as const;
type Way = (typeof ways)[number];
/** Kinds whose content can be put right here; of the others the time can, and they can be withdrawn and done again. */
const withValue = ['animal-weighed', 'treatment-given', 'observation-noted'];

const isLampLook = (record: LogRecord): boolean => record.kind === 'observation-noted' && record.body.code === lampCode;

/** Put a record right: a new one takes its place, or it is withdrawn. The old one stays visible either way. */
export function CorrectSheet({ record, onClose }: { record: LogRecord; onClose: () => void }) {
  const world = useWorld();
  const { weightUnit } = useShelter();
  // What the lamp showed is not turned round by a tap: the record is withdrawn and the look done again.
  const able = withValue.includes(record.kind) && !isLampLook(record);
  const [way, setWay] = useState<Way>(able ? 'value' : 'withdraw');
  const [reason, setReason] = useState('');
  const [at, setAt] = useState<string | null>(record.happenedAt);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const [given, setGiven] = useState<Intent>({ missing: say('parts.records-nothing-yet') });

  const intent = (): Intent => {
    if (way === 'withdraw') return withdrawRecord(record, { reason }, now());
    if (at === null) return { missing: say('parts.time-wrong') };
    if (way === 'time')
      return at === record.happenedAt
        ? { missing: say('desk.correct.same-time') }
        : correct(record, record.kind, record.body, at);
    switch (record.kind) {
      case 'animal-weighed': {
        const weight = weightIn(text, weightUnit, chosen);
        if (weight === null) return { missing: say('desk.correct.needs-weight') };
        return correct(record, 'animal-weighed', {
          ...record.body,
          grams: weight.grams,
          entered: text.trim(),
          doubtful: false,
        });
      }
      case 'observation-noted':
        return correct(record, 'observation-noted', {
          ...record.body,
          state: record.body.state === 'present' ? 'absent' : 'present',
        });
      default:
        return given;
    }
  };

  return (
    <RecordSheet
      title={say('desk.correct.title')}
      intent={intent()}
      action={say(way === 'withdraw' ? 'desk.correct.withdraw' : 'desk.correct.record')}
      stop={way === 'withdraw'}
      onClose={onClose}
    >
      <p>{say(tell(world, record))}</p>
      <p className="soft">{say('desk.correct.lead')}</p>
      <ChooseOne
        label={say('desk.correct.what')}
        options={ways
          .filter((one) => one !== 'value' || able)
          .map((id) => ({ id, label: say(`desk.correct.way.${id}`) }))}
        value={way}
        onChange={setWay}
        flow
      />
      {way === 'withdraw' ? (
        <Field label={say('desk.correct.reason')} value={reason} onChange={setReason} lines required maxLength={300} />
      ) : null}
      {way === 'time' ? (
        <WhenField label={say('desk.correct.when')} start={record.happenedAt} onChange={setAt} />
      ) : null}
      {way === 'value' && record.kind === 'animal-weighed' ? (
        <WeightField
          label={say('desk.animal.weight')}
          unit={weightUnit}
          text={text}
          onText={setText}
          chosen={chosen}
          onChosen={setChosen}
        />
      ) : null}
      {way === 'value' && record.kind === 'treatment-given' ? (
        <CorrectGiven record={record} onIntent={setGiven} />
      ) : null}
    </RecordSheet>
  );
}
