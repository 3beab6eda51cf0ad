import { useMemo, useState } from 'react';
import { dayOfInstant } from '../../../core/calendar.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import { weighAnimal } from '../../../log/commands/animal.js';
import { give, notGiven } from '../../../log/commands/round.js';
import { NotGivenReason } from '../../../log/kinds/treatment.js';
import { drawUpsFor } from '../../../log/views/draw-ups.js';
import type { AnimalStop, RoundLine, RoundView } from '../../../log/views/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne } from '../../parts/choices.js';
import { Field } from '../../parts/field.js';
import { GoButton } from '../../parts/links.js';
import { Pick } from '../../parts/pick.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { VolumeField, volumeIn } from '../../parts/volume-field.js';
import { WeightField, weightIn } from '../../parts/weight-field.js';
import { WhenField } from '../../parts/when-field.js';
import { useWorld } from '../../store/here.js';
import { nameOf } from '../../told/names.js';
import { dueAtOf } from '../round/order-of-line.js';
import { lookAtWeight } from '../round/weighing.js';
import { lineWords } from '../rounds/line-words.js';
import { amountText } from './amount.js';

interface KeyInLineProps {
  readonly view: RoundView;
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  readonly onKept: () => void;
}

type What = 'as-printed' | 'other' | 'weighed' | 'not-given';

/** One line of a sheet: what was written beside it becomes a record with the time that stands on the paper. */
export function KeyInLine({ view, stop, line, onKept }: KeyInLineProps) {
  const world = useWorld();
  const { shelter } = world;
  const [opened] = useState(now);
  const start = view.facts.plan.startsAt ?? opened;
  const drawUp = useMemo(
    () =>
      drawUpsFor(world, [{ animal: stop.animal.id, schedules: [line.schedule] }], start).find(
        (one) => one.schedule === line.schedule,
      ) ?? null,
    [world, stop, line, start],
  );
  const printed = drawUp !== null && !drawUp.dose.stopped;
  const gives = line.action === 'give';
  const [what, setWhat] = useState<What>(
    gives && printed ? 'as-printed' : line.action === 'weigh' ? 'weighed' : 'not-given',
  );
  const [at, setAt] = useState<string | null>(start);
  const [reason, setReason] = useState<NotGivenReason | null>(null);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  const [weightText, setWeightText] = useState('');
  const [weightChosen, setWeightChosen] = useState<Weight | null>(null);
  const [note, setNote] = useState('');
  const weight = weightIn(weightText, shelter.weightUnit, weightChosen);
  const volume = volumeIn(text, null, chosen);
  const round = view.facts.id;

  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    const dueAt = dueAtOf(stop.animal, shelter, line.schedule, at);
    if (what === 'not-given') {
      if (reason === null) return { missing: say('ribbon.key-in.needs-reason') };
      return notGiven(stop.animal.id, { schedule: line.schedule, reason, note, dueAt, round }, at);
    }
    if (what === 'weighed') {
      if (weight === null) return { missing: say('desk.correct.needs-weight') };
      const { doubtful } = lookAtWeight(stop.animal, weight.grams, at, dayOfInstant(at, shelter.zone));
      return weighAnimal(stop.animal.id, { grams: weight.grams, entered: weightText.trim(), doubtful, round }, at);
    }
    if (drawUp === null) return { missing: say('ribbon.key-in.no-product') };
    if (what === 'other' && volume === null) return { missing: say('desk.correct.needs-volume') };
    const { dose, product, lot } = drawUp;
    const weighing = stop.animal.weighings.at(-1) ?? null;
    const volume_ul = what === 'other' ? volume : (dose.total_ul ?? dose.exact_ul);
    return give(
      stop.animal.id,
      {
        schedule: line.schedule,
        product: product.id,
        lot: lot?.id ?? null,
        volume_ul,
        pieces: volume_ul === null && dose.pieces !== null ? say(dose.pieces).slice(0, 20) : '',
        syringe: dose.drawn?.syringe ?? null,
        planned_ul: dose.total_ul ?? dose.exact_ul,
        weight: dose.grams === null ? null : (weighing?.record ?? null),
        grams: dose.grams,
        route: product.route,
        site: product.site.slice(0, 80),
        protocol: shelter.protocol === null ? null : { id: shelter.protocol.id, version: shelter.protocol.version },
        dueAt,
        round,
        note,
      },
      at,
    );
  };
  if (line.state !== 'open') {
    return (
      <Notice tone="attention" live="status">
        {say('ribbon.key-in.already', { animal: nameOf(stop.animal), what: line.name, state: lineWords(line).text })}
      </Notice>
    );
  }
  return (
    <div className="sheet stack">
      <h2>{say('ribbon.key-in.line', { animal: nameOf(stop.animal), what: line.name })}</h2>
      {gives || line.action === 'weigh' ? null : (
        <Notice tone="attention">
          {say('ribbon.key-in.elsewhere')}{' '}
          <GoButton to={`/round/${encodeURIComponent(round)}/animal/${encodeURIComponent(stop.animal.id)}`}>
            {say('desk.round.open-here')}
          </GoButton>
        </Notice>
      )}
      <ChooseOne<What>
        label={say('ribbon.key-in.what')}
        options={[
          ...(line.action === 'weigh' ? [{ id: 'weighed' as const, label: say('ribbon.key-in.weighed') }] : []),
          ...(gives && drawUp !== null
            ? [
                {
                  id: 'as-printed' as const,
                  label: say('ribbon.key-in.as-printed'),
                  note: amountText(drawUp),
                  disabled: !printed,
                },
                { id: 'other' as const, label: say('ribbon.key-in.other') },
              ]
            : []),
          { id: 'not-given' as const, label: say('ribbon.key-in.not-given') },
        ]}
        value={what}
        onChange={setWhat}
      />
      <WhenField label={say('desk.correct.when')} start={start} onChange={setAt} />
      {what === 'weighed' ? (
        <WeightField
          label={say('desk.animal.weight')}
          unit={shelter.weightUnit}
          text={weightText}
          onText={setWeightText}
          chosen={weightChosen}
          onChosen={setWeightChosen}
        />
      ) : null}
      {what === 'other' ? (
        <VolumeField
          label={say('desk.elsewhere.volume')}
          text={text}
          onText={setText}
          chosen={chosen}
          onChosen={setChosen}
        />
      ) : null}
      {what === 'not-given' ? (
        <Pick
          label={say('round.why')}
          options={NotGivenReason.options.map((id) => ({ id, label: say(`not-given.${id}`) }))}
          value={reason}
          onChange={setReason}
        />
      ) : null}
      <Field label={say('ribbon.key-in.note')} value={note} onChange={setNote} maxLength={500} />
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={onKept} />
    </div>
  );
}
