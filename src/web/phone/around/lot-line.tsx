import { useState } from 'react';
import type { LotId } from '../../../core/ids.js';
import { sameLot } from '../../../core/point-of-care/kit.js';
import type { LotChoice } from '../../../log/bedside/lot-choices.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice, State } from '../../parts/state.js';

interface LotLineProps {
  readonly lots: readonly LotChoice[];
  readonly chosen: LotChoice | null;
  /** Lot as read from the vial, when it is not in the list. */
  readonly text: string;
  readonly onChoose: (id: LotId) => void;
  readonly onText: (text: string) => void;
}

/** The lot in the hand: the first to expire is offered, and another one is two taps away. */
export function LotLine({ lots, chosen, text, onChoose, onText }: LotLineProps) {
  const [open, setOpen] = useState(false);
  return (
    <div className="lot-line">
      <span>
        {text !== '' ? (
          <State tone="attention">{say('round.lot.not-in-list', { lot: text })}</State>
        ) : chosen === null ? (
          <State tone="attention">{say('round.lot.none')}</State>
        ) : (
          <LotText choice={chosen} />
        )}
      </span>
      <Act size="mid" onAct={() => setOpen(true)}>
        {say('round.lot.other')}
      </Act>
      {open ? (
        <LotSheet
          lots={lots}
          chosen={chosen}
          text={text}
          onClose={() => setOpen(false)}
          onChoose={(id) => {
            onChoose(id);
            setOpen(false);
          }}
          onText={(next) => {
            // One of the shelf that is typed from its vial is that one, with what is known of it.
            const named = lots.filter(({ lot }) => sameLot(lot.lotText, next));
            const [own] = named;
            if (own !== undefined && named.length === 1) onChoose(own.lot.id);
            else onText(next);
            setOpen(false);
          }}
        />
      ) : null}
    </div>
  );
}

function LotText({ choice }: { choice: LotChoice }) {
  const { lot, fault } = choice;
  return (
    <>
      {say('round.lot.lot')} <b className="mono">{lot.lotText}</b>{' '}
      {lot.expires === null ? null : (
        <span className="soft">{say('round.lot.expires', { on: { date: lot.expires } })}</span>
      )}{' '}
      {fault === null ? null : (
        <State tone={fault === 'none-left' ? 'attention' : 'stop'}>{say(`round.lot.${fault}`)}</State>
      )}
    </>
  );
}

function LotSheet({ lots, chosen, text, onChoose, onText, onClose }: LotLineProps & { onClose: () => void }) {
  const [typed, setTyped] = useState(text);
  return (
    <Sheet title={say('round.lot.choose')} open onClose={onClose}>
      {lots.length === 0 ? <Notice tone="attention">{say('round.lot.none')}</Notice> : null}
      <ChooseOne<LotId>
        label={say('round.lot.in-stock')}
        options={lots.map(({ lot, left, fault }) => ({
          id: lot.id,
          label: lot.lotText,
          note: [
            lot.expires === null ? '' : say('round.lot.expires', { on: { date: lot.expires } }),
            say('round.lot.left', { left }),
            fault === null ? '' : say(`round.lot.${fault}`),
          ]
            .filter((part) => part !== '')
            .join(' · '),
        }))}
        value={text === '' ? (chosen?.lot.id ?? null) : null}
        onChange={onChoose}
        big
      />
      <Field
        label={say('round.lot.typed')}
        value={typed}
        onChange={setTyped}
        figure
        maxLength={60}
        hint={say('round.lot.typed-hint')}
      />
      <div className="act-pair">
        <Act size="big" disabled={typed.trim() === ''} onAct={() => onText(typed.trim())}>
          {say('round.lot.use-typed')}
        </Act>
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
