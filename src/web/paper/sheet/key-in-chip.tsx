import { useState } from 'react';
import { readChip } from '../../../core/chip/read-chip.js';
import { dueAtOf } from '../../../log/bedside/order-of-line.js';
import { chipOnSheet, scanOnPaper, type TypedCode } from '../../../log/commands/paper.js';
import { notGiven } from '../../../log/commands/round.js';
import { chipOnPaper } from '../../../log/views/chips/chip-by-end.js';
import { carriedElsewhere, namedElsewhere } from '../../../log/views/chips/chip-elsewhere.js';
import { chipText, nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { WhenField } from '../../parts/fields/when-field.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { useScan } from '../../scan/use-scan.js';
import { useWorld } from '../../store/here.js';
import { type Keying, onSheet } from './keying.js';

type Scan = 'none' | 'found' | 'not-written';
type After = 'same' | 'other' | 'none' | 'not-written';

interface KeyInChipProps {
  readonly keying: Keying;
  /** What comes from a scanner and is no chip: the code of another line. */
  readonly onCode: (text: string) => void;
}

/** A chip that was implanted: the scan before, the number or its end, the scan after, each as it is written or not. */
export function KeyInChip({ keying, onCode }: KeyInChipProps) {
  const world = useWorld();
  const { stop, view, line } = keying;
  const [at, setAt] = useState<string | null>(keying.start);
  const [before, setBefore] = useState<Scan | null>(null);
  const [foundText, setFoundText] = useState('');
  const [text, setText] = useState('');
  const [after, setAfter] = useState<After | null>(null);
  const [otherText, setOtherText] = useState('');
  const chip = text.trim() === '' ? null : chipOnPaper(world, stop.animal.id, text);
  // A number goes where one is asked for: what was found in the animal is not the chip that went in.
  const setNumber = before === 'found' ? setFoundText : after === 'other' && chip !== null ? setOtherText : setText;
  useScan((raw) => (readChip(raw).ok ? setNumber(raw.trim()) : onCode(raw)));

  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    if (before === null) return { missing: say('ribbon.key-in.needs-before') };
    const first = scanned(before === 'found', before === 'none', foundText);
    if (first === 'unread') return { missing: say('ribbon.key-in.needs-number') };
    const round = view.facts.id;
    if (before === 'found') {
      // A chip was there: what follows from it is that none went in.
      const dueAt = dueAtOf(stop.animal, world.shelter, line.schedule, at);
      const left = notGiven(stop.animal.id, { schedule: line.schedule, reason: 'already-done', dueAt, round }, at);
      return onSheet(keying, world, [at], [...scanOnPaper(stop.animal.id, 'before', first, round, at), ...left]);
    }
    if (chip === null) return { missing: say('ribbon.key-in.needs-chip') };
    if (!chip.ok) return chip;
    if (after === null) return { missing: say('ribbon.key-in.needs-after') };
    const { code, class: kind, lot } = chip.value;
    const own = { raw: text.trim(), code, class: kind };
    const last = after === 'same' ? own : scanned(after === 'other', after === 'none', otherText);
    if (last === 'unread') return { missing: say('ribbon.key-in.needs-number') };
    const drafts = chipOnSheet(stop.animal.id, { chip: own, lot, before: first, after: last, round }, at);
    return onSheet(keying, world, [at], drafts);
  };
  return (
    <>
      <WhenField label={say('desk.correct.when')} start={keying.start} onChange={setAt} />
      <ChooseOne<Scan>
        label={say('ribbon.key-in.before')}
        options={(['none', 'found', 'not-written'] as const).map((id) => ({
          id,
          label: say(`ribbon.key-in.scan.${id}`),
        }))}
        value={before}
        onChange={setBefore}
        flow
      />
      {before === 'found' ? (
        <NumberField label={say('ribbon.key-in.number-found')} text={foundText} onText={setFoundText} />
      ) : (
        <>
          <Field
            label={say('ribbon.key-in.chip')}
            value={text}
            onChange={setText}
            figure
            maxLength={60}
            hint={say('ribbon.key-in.chip-hint')}
            wrong={chip === null || chip.ok ? null : say(chip.why)}
            echo={chip?.ok ? chipText(chip.value.code) : undefined}
          />
          {chip?.ok ? <AboutChip keying={keying} code={chip.value.code} boxed={chip.value.lot !== null} /> : null}
          <ChooseOne<After>
            label={say('ribbon.key-in.after')}
            options={(['same', 'other', 'none', 'not-written'] as const).map((id) => ({
              id,
              label: say(`ribbon.key-in.scan.${id}`),
            }))}
            value={after}
            onChange={setAfter}
            flow
          />
          {after === 'other' ? (
            <NumberField label={say('ribbon.key-in.number-found')} text={otherText} onText={setOtherText} />
          ) : null}
          {after === 'not-written' ? (
            <Notice tone="attention">{say('ribbon.key-in.after-due', { animal: nameOf(stop.animal) })}</Notice>
          ) : null}
        </>
      )}
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={keying.onKept} />
    </>
  );
}

function scanned(found: boolean, none: boolean, text: string): TypedCode | 'none' | 'unread' | null {
  if (none) return 'none';
  if (!found) return null;
  const read = readChip(text);
  return read.ok ? { raw: text.trim(), code: read.value.code, class: read.value.class } : 'unread';
}

function NumberField({ label, text, onText }: { label: string; text: string; onText: (text: string) => void }) {
  const read = text.trim() === '' ? null : readChip(text);
  return (
    <Field
      label={label}
      value={text}
      onChange={onText}
      figure
      maxLength={60}
      wrong={read === null || read.ok ? null : say(read.why)}
      echo={read?.ok ? chipText(read.value.code) : undefined}
    />
  );
}

/** What there is to say about the number, before it stands on the record of this animal. */
function AboutChip({ keying, code, boxed }: { keying: Keying; code: string; boxed: boolean }) {
  const world = useWorld();
  const read = readChip(code);
  const elsewhere = carriedElsewhere(world, code);
  const owner = [...world.animals.values()].find((one) => one.id !== keying.stop.animal.id && one.chip?.code === code);
  return (
    <>
      {owner === undefined ? null : (
        <Notice tone="stop" live="alert">
          {say('ribbon.key-in.chip-of-other', { animal: nameOf(owner) })}
        </Notice>
      )}
      {elsewhere === null ? null : (
        <Notice tone="stop" live="alert">
          {say('ribbon.key-in.chip-of-other', { animal: namedElsewhere(elsewhere) })}
        </Notice>
      )}
      {boxed ? null : <Notice tone="attention">{say('round.chip.not-listed')}</Notice>}
      {(read.ok ? read.value.warnings : []).map((why) => (
        <Notice key={why.say} tone="attention">
          {say(why)}
        </Notice>
      ))}
    </>
  );
}
