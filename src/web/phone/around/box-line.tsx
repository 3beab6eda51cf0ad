import { useState } from 'react';
import type { LotId, SyringeId } from '../../../core/ids.js';
import { boxInUse } from '../../../log/bedside/box-in-use.js';
import { type LotChoice, lotChoices } from '../../../log/bedside/lot-choices.js';
import type { Lot } from '../../../log/views/shelter.js';
import { preparedText } from '../../../told/lot-words.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { State } from '../../parts/state.js';
import { useRound } from './use-round.js';

/** The box that the syringe in the hand came out of; `box` is null where it came out of none on the shelf. */
export interface SyringeBox {
  readonly boxes: readonly LotChoice[];
  readonly box: LotChoice | null;
  readonly onBox: (box: LotId | null) => void;
}

/** Boxes of one syringe of the formulary. */
export const boxesOfSyringe =
  (syringe: SyringeId | null) =>
  (of: Lot['of']): boolean =>
    of.is === 'syringe' && of.syringe === syringe;

/**
 * The box in use on this round, of those that hold `what`. Nobody is asked: what stands there is recorded, and another
 * one is taken with one touch, for this animal and those after it.
 */
export function useSyringeBox(what: string, wanted: (of: Lot['of']) => boolean): SyringeBox {
  const { world, view, round, today, now } = useRound();
  const [chosen, setChosen] = useState<{ readonly what: string; readonly box: LotId | null } | null>(null);
  const boxes = lotChoices(world, wanted, today, now).filter(({ lot }) => lot.withdrawn?.why !== 'used-up');
  const box =
    chosen?.what === what
      ? (boxes.find(({ lot }) => lot.id === chosen.box) ?? null)
      : boxInUse(world, view, round, boxes);
  return { boxes, box, onBox: (next) => setChosen({ what, box: next }) };
}

/** Which box it is, and the touch that takes the next one; after the last comes none of them. */
export function BoxLine({ boxes, box, onBox }: SyringeBox) {
  if (boxes.length === 0) return null;
  const next = box === null ? boxes[0] : boxes[boxes.indexOf(box) + 1];
  return (
    <div className="lot-line">
      <span>
        {box === null ? <State tone="attention">{say('round.syringe-box.none')}</State> : <BoxText box={box} />}
      </span>
      <Act size="mid" onAct={() => onBox(next?.lot.id ?? null)}>
        {say(
          next === undefined
            ? 'round.syringe-box.not-listed'
            : boxes.length === 1
              ? 'round.syringe-box.this'
              : 'round.syringe-box.other',
        )}
      </Act>
    </div>
  );
}

function BoxText({ box: { lot, fault } }: { box: LotChoice }) {
  return (
    <>
      {say('round.syringe-box.from')} <b className="mono">{lot.lotText}</b>{' '}
      {lot.prepared !== null ? (
        <span className="soft">{preparedText(lot)}</span>
      ) : lot.expires === null ? null : (
        <span className="soft">{say('round.lot.expires', { on: { date: lot.expires } })}</span>
      )}{' '}
      {fault === null ? null : (
        <State tone={fault === 'none-left' ? 'attention' : 'stop'}>
          {say(fault === 'expired' ? 'round.syringe-box.past' : `round.lot.${fault}`)}
        </State>
      )}
    </>
  );
}
