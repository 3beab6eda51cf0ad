import { useMemo, useState } from 'react';
import { give } from '../../../log/commands/round.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import { type DrawUp, drawUpsFor } from '../../../log/views/draw-ups.js';
import { asPrinted } from '../../../log/views/plan/as-printed.js';
import type { World } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { Field } from '../../parts/field.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { VolumeField, volumeIn } from '../../parts/volume-field.js';
import { WhenField } from '../../parts/when-field.js';
import { useWorld } from '../../store/here.js';
import { dueAtOf } from '../round/order-of-line.js';
import { piecesOf } from '../round/use-give.js';
import { amountText } from './amount.js';
import { type Keying, onSheet } from './keying.js';
import { LotField, lotWritten } from './lot-on-paper.js';

export type Given = 'as-printed' | 'other' | 'no-amount';

function drawUpIn(world: World, { stop, line, start }: Keying): DrawUp | null {
  const wanted = [{ animal: stop.animal.id, schedules: [line.schedule] }];
  return drawUpsFor(world, wanted, start).find((one) => one.schedule === line.schedule) ?? null;
}

/** The line's dose as it stands on the paper, and as it would be now that other lines of the sheet are on record. */
export function useDrawUps(keying: Keying): { readonly printed: DrawUp | null; readonly current: DrawUp | null } {
  const world = useWorld();
  const { stop, view } = keying;
  return useMemo(() => {
    const printed = drawUpIn(asPrinted(world, stop.animal.id, view.facts.id), keying);
    return { printed, current: drawUpIn(world, keying) ?? printed };
  }, [world, stop, view, keying]);
}

/** A treatment that was given, with the amount and the lot that are written there. */
export function KeyInGiven({ keying, given }: { keying: Keying; given: Given }) {
  const world = useWorld();
  const { printed, current } = useDrawUps(keying);
  const [at, setAt] = useState<string | null>(keying.start);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  const [pieces, setPieces] = useState('');
  const [lot, setLot] = useState('');
  const [note, setNote] = useState('');
  if (printed === null || current === null) {
    return <Notice tone="attention">{say('ribbon.key-in.no-product')}</Notice>;
  }
  const { product } = printed;
  const wanted = (of: { is: string; product?: string }): boolean => of.is === 'product' && of.product === product.id;
  const inPieces = printed.dose.pieces !== null || current.dose.pieces !== null;
  const byVolume = !inPieces;
  const orPieces = inPieces || (printed.dose.exact_ul === null && current.dose.exact_ul === null);
  const volume = volumeIn(text, null, chosen);

  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    if (given === 'other' && volume === null && pieces.trim() === '') {
      return { missing: say(text.trim() === '' ? 'ribbon.key-in.needs-amount' : 'desk.correct.needs-volume') };
    }
    const amount = amountOf(given, printed, volume, pieces);
    const body = bodyOf(keying, given === 'as-printed' ? printed : current, amount, given);
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
        <span className="soft">{say('ribbon.key-in.printed', { amount: amountText(printed) })}</span>
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
      <LotField label={say('ribbon.key-in.lot')} wanted={wanted} text={lot} onText={setLot} />
      <Field label={say('ribbon.key-in.note')} value={note} onChange={setNote} maxLength={500} />
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={keying.onKept} />
    </>
  );
}

type Amount = { readonly volume_ul: number | null; readonly pieces: string };

function amountOf(given: Given, printed: DrawUp, volume: number | null, pieces: string): Amount {
  if (given === 'no-amount') return { volume_ul: null, pieces: '' };
  if (given === 'other') return { volume_ul: volume, pieces: volume === null ? pieces.trim() : '' };
  const volume_ul = printed.dose.total_ul ?? printed.dose.exact_ul;
  return { volume_ul, pieces: volume_ul === null ? piecesOf(printed.product, printed.dose.grams) : '' };
}

/** All but lot, order and words. Stops that stood are kept with it: nobody on the sheet had them opened. */
function bodyOf(
  { view, line, team }: Keying,
  { dose, product, animal }: DrawUp,
  amount: Amount,
  given: Given,
): BodyInput<'treatment-given'> {
  const by = team?.by;
  const stops = given === 'as-printed' || by === undefined ? [] : dose.gates.filter((one) => one.severity === 'stop');
  return {
    schedule: line.schedule,
    product: product.id,
    lot: null,
    ...amount,
    // Which syringe was in the hand is known only where it was drawn as printed.
    syringe: given === 'as-printed' ? (dose.drawn?.syringe ?? null) : null,
    planned_ul: dose.total_ul ?? dose.exact_ul,
    weight: dose.grams === null ? null : (animal.weighings.at(-1)?.record ?? null),
    grams: dose.grams,
    route: product.route,
    site: given === 'as-printed' ? product.site.slice(0, 80) : '',
    passed: stops.flatMap(({ code }) =>
      by === undefined ? [] : [{ gate: code, reason: say('ribbon.key-in.no-word'), by }],
    ),
    round: view.facts.id,
  };
}
