import { useState } from 'react';
import type { KitType } from '../../../core/dosing/formulary.js';
import type { LotId } from '../../../core/ids.js';
import { lotsMatch } from '../../../core/point-of-care/kit.js';
import { boxNamed } from '../../../log/bedside/box-named.js';
import type { BoxOut } from '../../../log/bedside/kit-needs.js';
import { nextKit } from '../../../log/bedside/kits-ready.js';
import { takeKitsOut } from '../../../log/commands/shelter.js';
import { say } from '../../../words/say.js';
import { msOf, now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Notice, State } from '../../parts/state.js';
import { clockText } from '../../parts/thread.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { sinceWords } from './since.js';

export interface ChosenBox {
  readonly lot: LotId | null;
  readonly kitLot: string;
  readonly conjugateLot: string;
  readonly outOfColdAt: string | null;
}

interface ChooseBoxProps {
  readonly kit: KitType;
  readonly boxes: readonly BoxOut[];
  readonly value: ChosenBox | null;
  readonly onChange: (box: ChosenBox | null) => void;
}

const elsewhere = 'elsewhere';

/** What stands in the fields at first: what was chosen before, where one comes back to it, else the box to be used next. */
function shownOf(value: ChosenBox | null, usable: readonly BoxOut[]) {
  if (value === null) {
    const next = usable.find((one) => one.out.length > 0) ?? usable[0];
    return { picked: next?.lot.id ?? elsewhere, typedKit: '', bottle: null, typedBottle: '' };
  }
  const box = usable.find((one) => one.lot.id === value.lot) ?? null;
  const same = box?.lot.of.is === 'kit' ? box.lot.of.conjugateLot : value.kitLot;
  return {
    picked: box?.lot.id ?? elsewhere,
    typedKit: box === null ? value.kitLot : '',
    bottle: value.conjugateLot === same ? ('same' as const) : ('other' as const),
    typedBottle: value.conjugateLot === same ? '' : value.conjugateLot,
  };
}

/**
 * Which box the kit is from, and what the conjugate bottle says: they have to be the same. A lot that is typed, of a box
 * that is on the shelf, is that box.
 */
export function ChooseBox({ kit, boxes, value, onChange }: ChooseBoxProps) {
  const usable = boxes.filter((box) => box.fault !== 'withdrawn');
  const [begin] = useState(() => shownOf(value, usable));
  const [picked, setPicked] = useState<string>(begin.picked);
  const [typedKit, setTypedKit] = useState(begin.typedKit);
  const [bottle, setBottle] = useState<'same' | 'other' | null>(begin.bottle);
  const [typedBottle, setTypedBottle] = useState(begin.typedBottle);
  const box = usable.find((one) => one.lot.id === picked) ?? boxNamed(boxes, typedKit);
  const listed = box?.lot.of.is === 'kit' ? box.lot.of.conjugateLot : '';
  const tell = (next: { bottle?: 'same' | 'other'; typedBottle?: string }): void => {
    const kitLot = box?.lot.lotText ?? typedKit;
    const seen = next.bottle ?? bottle;
    const same = box?.lot.of.is === 'kit' ? box.lot.of.conjugateLot : kitLot;
    const conjugateLot = seen === 'same' ? same : seen === 'other' ? (next.typedBottle ?? typedBottle) : '';
    const out = box === null ? null : nextKit(box.out);
    onChange(
      kitLot.trim() === '' || conjugateLot.trim() === ''
        ? null
        : {
            lot: box?.lot.id ?? null,
            kitLot: kitLot.trim(),
            conjugateLot: conjugateLot.trim(),
            outOfColdAt: out?.at ?? null,
          },
    );
  };
  const match = value === null ? null : lotsMatch(kit, value.kitLot, value.conjugateLot);
  return (
    <>
      <ChooseOne
        label={say('round.box.which')}
        options={[
          ...usable.map(({ lot, left, fault }) => ({
            id: lot.id as string,
            label: lot.lotText,
            note: [
              lot.expires === null ? '' : say('round.lot.expires', { on: { date: lot.expires } }),
              say('round.lot.left', { left }),
              fault === null ? '' : say(`round.lot.${fault}`),
            ]
              .filter((part) => part !== '')
              .join(' · '),
          })),
          { id: elsewhere, label: say('round.box.not-listed') },
        ]}
        value={box !== null && usable.includes(box) ? box.lot.id : picked}
        onChange={(id) => {
          setPicked(id);
          setTypedKit('');
          setBottle(null);
          onChange(null);
        }}
        big
      />
      {picked === elsewhere ? (
        <Field
          label={say('round.box.kit-lot')}
          value={typedKit}
          onChange={(text) => {
            setTypedKit(text);
            // What was said of the bottle was said beside the lot that stood here before.
            setBottle(null);
            onChange(null);
          }}
          figure
          maxLength={60}
        />
      ) : null}
      {box !== null && picked === elsewhere ? <Known box={box} /> : null}
      {box === null || box.fault === 'withdrawn' ? null : <Warmth box={box} />}
      {box === null && typedKit.trim() === '' ? null : (
        <ChooseOne
          label={say('round.box.bottle')}
          options={[
            {
              id: 'same' as const,
              label: say('round.box.bottle-same', { lot: box === null ? typedKit : listed }),
            },
            { id: 'other' as const, label: say('round.box.bottle-other') },
          ]}
          value={bottle}
          onChange={(id) => {
            setBottle(id);
            tell({ bottle: id });
          }}
          big
        />
      )}
      {bottle === 'other' ? (
        <Field
          label={say('round.box.bottle-lot')}
          value={typedBottle}
          onChange={(text) => {
            setTypedBottle(text);
            tell({ typedBottle: text });
          }}
          figure
          maxLength={60}
        />
      ) : null}
      {match !== null && !match.ok ? (
        <Notice tone="stop" live="alert">
          {say(match.why)}
        </Notice>
      ) : null}
      {match?.ok ? <State tone="done">{say('round.box.match')}</State> : null}
    </>
  );
}

/** Which box of the shelf the typed lot is, and since when its next test is out of the cold. */
function Known({ box: { lot, fault, out } }: { box: BoxOut }) {
  const { today, shelter } = useRound();
  if (fault === 'withdrawn') {
    return (
      <Notice tone="stop" live="alert">
        {say('round.box.withdrawn', { lot: lot.lotText })}
      </Notice>
    );
  }
  const next = nextKit(out);
  return (
    <Notice tone="attention" live="status">
      {next === null
        ? say('round.box.known-in-cold', { lot: lot.lotText })
        : say('round.box.known', { lot: lot.lotText, since: sinceWords(next.at, today, shelter.zone) })}
      {lot.expires === null ? null : ` ${say('round.lot.expires', { on: { date: lot.expires } })}`}
      {fault === null ? null : ` · ${say(`round.lot.${fault}`)}`}
    </Notice>
  );
}

/** Whether the next test of this box is warm; one that nobody noted taking out can be noted here. */
function Warmth({ box }: { box: BoxOut }) {
  const { now_ms, round, today, shelter } = useRound();
  const { state, save } = useSave();
  const next = nextKit(box.out);
  if (next === null) {
    return (
      <>
        <Notice tone="attention">{say('round.box.still-cold')}</Notice>
        <Trouble state={state} />
        <Act size="mid" onAct={() => save(takeKitsOut(box.lot.id, { count: 1, round }, now()))}>
          {say('round.kits.take-out', { count: 1 })}
        </Act>
      </>
    );
  }
  const { readiness } = next;
  if (readiness.is === 'ready')
    return <State tone="done">{say('round.box.warm', { since: sinceWords(next.at, today, shelter.zone) })}</State>;
  if (readiness.is === 'warming') {
    return (
      <Notice tone="attention">
        {say(readiness.why)} <b className="mono">{clockText(msOf(readiness.readyAt) - now_ms)}</b>
      </Notice>
    );
  }
  return <Notice tone="stop">{say(readiness.why)}</Notice>;
}
