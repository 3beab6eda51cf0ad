import { useMemo, useState } from 'react';
import type { CalendarDate } from '../../../core/calendar.js';
import { type KitTypeId, LotId, type ProductId, type SyringeId } from '../../../core/ids.js';
import { receiveLot } from '../../../log/commands/shelter.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { ChooseOne, Tick } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { useChipNumber } from '../../parts/use-chip-number.js';
import { useScan } from '../../scan/use-scan.js';
import { newId, useShelter } from '../../store/here.js';
import { ChipBoxFields } from './chip-box-fields.js';
import { readCount } from './read-count.js';

const sorts = ['product', 'kit', 'chips', 'syringe', 'supply'] as const;

/** A lot came in: a product, a box of tests with its own conjugate, a box of chips, or something else. */
export function ReceiveSheet({ onClose }: { onClose: () => void }) {
  const { formulary, zone } = useShelter();
  const today = useToday(zone);
  const id = useMemo(() => LotId.parse(newId()), []);
  const [is, setIs] = useState<(typeof sorts)[number]>('product');
  const [product, setProduct] = useState<ProductId | null>(null);
  const [kitType, setKitType] = useState<KitTypeId | null>(null);
  const [conjugateLot, setConjugateLot] = useState('');
  const [codes, setCodes] = useState<readonly string[]>([]);
  const [chipTrouble, setChipTrouble] = useState<string | null>(null);
  const [syringe, setSyringe] = useState<SyringeId | null>(null);
  const [name, setName] = useState('');
  const [readyToDraw, setReadyToDraw] = useState(false);
  const [lotText, setLotText] = useState('');
  const [expires, setExpires] = useState<CalendarDate | null>(null);
  const [half, setHalf] = useState(false);
  const [text, setText] = useState('');
  const readNumber = useChipNumber();
  const pieces = is === 'chips' ? codes.length : readCount(text);

  const addChip = (raw: string): boolean => {
    const read = readNumber(raw);
    setChipTrouble(read.ok ? null : say(read.why));
    if (read.ok && !codes.includes(read.value.code)) setCodes([...codes, read.value.code]);
    return read.ok;
  };
  const addBox = (next: readonly string[]): void => {
    setChipTrouble(null);
    setCodes(next);
  };
  useScan(is === 'chips' ? addChip : null);

  const ofWhat = () => {
    if (is === 'product') return product === null ? null : { is, product };
    if (is === 'kit')
      return kitType === null || conjugateLot.trim() === '' ? null : { is, kitType, conjugateLot: conjugateLot.trim() };
    if (is === 'syringe') return syringe === null ? null : { is, syringe };
    if (is === 'chips') return codes.length === 0 ? null : { is, codes: [...codes] };
    return name.trim() === '' ? null : { is, name: name.trim(), ...(readyToDraw ? { readyToDraw } : {}) };
  };
  const intent = (): Intent => {
    const of = ofWhat();
    if (of === null) return { missing: say(`desk.stock.needs.${is}`) };
    if (lotText.trim() === '') return { missing: say('desk.stock.needs-lot') };
    if (half) return { missing: say('parts.day-half') };
    if (pieces === null) return { missing: say('desk.stock.needs-count') };
    return receiveLot(id, { of, lotText: lotText.trim(), expires, pieces }, now());
  };
  const kit = formulary?.kits.find((one) => one.id === kitType);
  const differs =
    is === 'kit' &&
    kit?.conjugateLotMustMatch === true &&
    conjugateLot.trim() !== '' &&
    lotText.trim() !== '' &&
    conjugateLot.trim() !== lotText.trim();
  return (
    <RecordSheet
      title={say('desk.stock.receive')}
      intent={intent()}
      action={say('desk.stock.receive')}
      onClose={onClose}
    >
      <ChooseOne
        label={say('desk.stock.sort')}
        options={sorts.map((one) => ({ id: one, label: say(`desk.stock.sort.${one}`) }))}
        value={is}
        onChange={setIs}
        flow
      />
      {is === 'product' ? (
        <Pick
          label={say('desk.stock.product')}
          options={(formulary?.products ?? []).map((one) => ({ id: one.id, label: one.name, note: one.form }))}
          value={product}
          onChange={setProduct}
        />
      ) : null}
      {is === 'kit' ? (
        <Pick
          label={say('desk.stock.kit')}
          options={(formulary?.kits ?? []).map((one) => ({ id: one.id, label: one.name }))}
          value={kitType}
          onChange={setKitType}
        />
      ) : null}
      {is === 'syringe' ? (
        <Pick
          label={say('drawup.stock.syringe')}
          options={(formulary?.syringes ?? []).map((one) => ({ id: one.id, label: one.name }))}
          value={syringe}
          onChange={setSyringe}
        />
      ) : null}
      {is === 'supply' ? (
        <>
          <Field label={say('desk.stock.supply')} value={name} onChange={setName} maxLength={80} />
          <Tick
            label={say('desk.stock.ready-to-draw')}
            note={say('desk.stock.ready-to-draw-note')}
            value={readyToDraw}
            onChange={setReadyToDraw}
          />
        </>
      ) : null}
      <Field
        label={say('desk.stock.lot')}
        hint={say('desk.stock.lot-hint')}
        value={lotText}
        onChange={setLotText}
        figure
        narrow
        maxLength={60}
      />
      {is === 'kit' ? (
        <Field
          label={say('desk.stock.conjugate')}
          hint={say('desk.stock.conjugate-hint')}
          value={conjugateLot}
          onChange={setConjugateLot}
          figure
          narrow
          maxLength={60}
        />
      ) : null}
      {differs ? <Notice tone="attention">{say('desk.stock.conjugate-differs')}</Notice> : null}
      {is === 'chips' ? <ChipBoxFields codes={codes} trouble={chipTrouble} onAdd={addChip} onCodes={addBox} /> : null}
      <DayField
        label={say('desk.stock.expires')}
        hint={say('desk.stock.expires-hint')}
        value={expires}
        onChange={setExpires}
        onHalf={setHalf}
      />
      {expires !== null && expires < today ? (
        <Notice tone="attention">{say('desk.stock.expired', { on: expires })}</Notice>
      ) : null}
      {is === 'chips' ? null : (
        <Field
          label={say('desk.stock.pieces')}
          value={text}
          onChange={setText}
          inputMode="numeric"
          figure
          narrow
          wrong={text === '' || pieces !== null ? null : say('desk.stock.whole')}
        />
      )}
    </RecordSheet>
  );
}
