import { useMemo, useState } from 'react';
import { dayOfInstant } from '../../../core/calendar.js';
import type { Gate } from '../../../core/dosing/gate.js';
import { perKgOfVolume } from '../../../core/dosing/given.js';
import { judgeVolume } from '../../../core/dosing/written-amount.js';
import { writeMass, writePerKg, writeVolume } from '../../../core/quantity/write.js';
import { dueAtOf } from '../../../log/bedside/order-of-line.js';
import { doseOnPaper, type Given, stopsOnPaper } from '../../../log/commands/dose-on-paper.js';
import { give } from '../../../log/commands/round.js';
import { asPrinted, asPrintedLast } from '../../../log/plan/as-printed.js';
import { type DrawUp, drawUpsFor } from '../../../log/prepare/draw-ups.js';
import type { World } from '../../../log/views/world.js';
import { lotWritten } from '../../../papers/keyed-in/lot-written.js';
import { amountText } from '../../../papers/sheet/amount.js';
import { say } from '../../../words/say.js';
import { Tick } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { VolumeField, volumeIn } from '../../parts/fields/volume-field.js';
import { WhenField } from '../../parts/fields/when-field.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { type Keying, onSheet } from './keying.js';
import { LotField } from './lot-on-paper.js';

function drawUpIn(world: World, { view, stop, line, start }: Keying): DrawUp | null {
  const wanted = [{ animal: stop.animal.id, schedules: [line.schedule] }];
  return drawUpsFor(world, wanted, start, view.facts.id).find((one) => one.schedule === line.schedule) ?? null;
}

interface DrawUpsOfLine {
  /** The line's dose as it stands on the paper. */
  readonly printed: DrawUp | null;
  /** As it would be now that other lines of the sheet are on record. */
  readonly current: DrawUp | null;
  /** A weighing since the round was laid down changes the amount: nobody knows which one was printed. */
  readonly weighedSince: boolean;
}

export function useDrawUps(keying: Keying): DrawUpsOfLine {
  const world = useWorld();
  const { stop, view } = keying;
  return useMemo(() => {
    const printed = drawUpIn(asPrinted(world, stop.animal.id, view.facts.id), keying);
    const last = drawUpIn(asPrintedLast(world, stop.animal.id, view.facts.id), keying);
    const weighedSince = printed !== null && last !== null && amountText(printed) !== amountText(last);
    return { printed, current: drawUpIn(world, keying) ?? printed, weighedSince };
  }, [world, stop, view, keying]);
}

/** A treatment that was given, with the amount and the lot that are written there. */
export function KeyInGiven({ keying, given }: { keying: Keying; given: Given }) {
  const world = useWorld();
  const { printed, current, weighedSince } = useDrawUps(keying);
  const [at, setAt] = useState<string | null>(keying.start);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  const [pieces, setPieces] = useState('');
  const [lot, setLot] = useState('');
  const [note, setNote] = useState('');
  const [really, setReally] = useState<string | null>(null);
  if (printed === null || current === null) {
    return <Notice tone="attention">{say('ribbon.key-in.no-product')}</Notice>;
  }
  const { product } = printed;
  const wanted = (of: { is: string; product?: string }): boolean => of.is === 'product' && of.product === product.id;
  const inPieces = printed.dose.pieces !== null || current.dose.pieces !== null;
  const byVolume = !inPieces;
  const orPieces = inPieces || (printed.dose.exact_ul === null && current.dose.exact_ul === null);
  const volume = given === 'other' ? volumeIn(text, null, chosen) : null;
  const { formulary } = world.shelter;
  const about =
    volume === null || formulary === null
      ? []
      : [
          ...judgeVolume(volume, product, formulary, current.dose),
          ...current.dose.gates.filter(({ code }) => code === 'limit-of-place'),
        ];
  const by = keying.team?.by ?? null;
  const paper = {
    schedule: keying.line.schedule,
    round: keying.view.facts.id,
    given,
    printed,
    current,
    volume_ul: volume,
    pieces,
    role: world.shelter.people.find(({ id }) => id === by)?.role,
  };
  const stood = stopsOnPaper(paper);
  const stops = [...stood, ...about.filter(({ severity }) => severity === 'stop')];
  // What was said yes to: another amount asks again.
  const judged = [given, volume, pieces, ...stops.map(({ code }) => code)].join(' ');

  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    if (given === 'other' && volume === null && pieces.trim() === '') {
      return { missing: say(text.trim() === '' ? 'ribbon.key-in.needs-amount' : 'desk.correct.needs-volume') };
    }
    if (stops.length > 0 && really !== judged) return { missing: say('ribbon.key-in.needs-really') };
    const body = doseOnPaper({ ...paper, by });
    const dueAt = dueAtOf(keying.stop.animal, world.shelter, keying.line.schedule, at);
    const { protocol } = world.shelter;
    const drafts = give(
      keying.stop.animal.id,
      {
        ...body,
        ...lotWritten(world.shelter, wanted, lot),
        protocol: protocol === null ? null : { id: protocol.id, version: protocol.version },
        dueAt,
        note,
      },
      at,
    );
    return onSheet(keying, world, [at], drafts);
  };
  return (
    <>
      <p>
        {say('ribbon.key-in.product', { product: product.name })}{' '}
        <span className="soft">
          {say(weighedSince ? 'ribbon.key-in.weighed-since' : 'ribbon.key-in.printed', { amount: amountText(printed) })}
        </span>
      </p>
      <WhenField label={say('desk.correct.when')} start={keying.start} onChange={setAt} />
      {given === 'other' ? (
        <div className="row end">
          {byVolume ? (
            <VolumeField
              label={say('ribbon.key-in.amount')}
              text={text}
              onText={setText}
              chosen={chosen}
              onChosen={setChosen}
            />
          ) : null}
          {orPieces ? (
            <Field
              label={say('ribbon.key-in.pieces')}
              value={pieces}
              onChange={setPieces}
              figure
              narrow
              maxLength={20}
            />
          ) : null}
        </div>
      ) : null}
      {volume === null ? null : <SaidBack volume_ul={volume} of={current} />}
      <Judged stood={stood} about={about} />
      <LotField
        label={say('ribbon.key-in.lot')}
        wanted={wanted}
        text={lot}
        onText={setLot}
        on={dayOfInstant(at ?? keying.start, world.shelter.zone)}
      />
      <Field label={say('ribbon.key-in.note')} value={note} onChange={setNote} maxLength={500} />
      {stops.length === 0 ? null : (
        <Tick
          label={say('ribbon.key-in.really')}
          value={really === judged}
          onChange={(on) => setReally(on ? judged : null)}
        />
      )}
      <RecordFoot
        intent={intent()}
        action={say('ribbon.key-in.keep')}
        stop={stops.length > 0}
        onSaved={keying.onKept}
      />
    </>
  );
}

/** What the typed volume comes to, so that a slip of the decimal point is heard. */
function SaidBack({ volume_ul, of: { product, dose } }: { volume_ul: number; of: DrawUp }) {
  const is = perKgOfVolume(volume_ul, product, dose);
  if (is === null) return null;
  return (
    <p role="status">
      {say('ribbon.key-in.is', {
        volume: writeVolume(volume_ul),
        mass: writeMass(is.ug),
        dose: is.mgPerKg === null ? 'none' : writePerKg(is.mgPerKg),
        weight: { grams: dose.grams ?? 0 },
      })}
    </p>
  );
}

/** What stood in the way of giving it, and what there is to say about the amount, before it is recorded. */
function Judged({ stood, about }: { stood: readonly Gate[]; about: readonly Gate[] }) {
  return (
    <>
      {stood.map((one) => (
        <Notice key={one.code} tone="stop" live="alert">
          <b>{say(`gate.${one.code}`)}.</b> {say(one.why)} {say('ribbon.key-in.stood')}
        </Notice>
      ))}
      {about.map((one) => (
        <Notice key={`${one.code} ${one.why.say}`} tone={one.severity === 'stop' ? 'stop' : 'attention'} live="alert">
          {say(one.code === 'not-the-dose' ? { ...one.why, say: 'ribbon.key-in.not-the-dose' } : one.why)}
        </Notice>
      ))}
    </>
  );
}
