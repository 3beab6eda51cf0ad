import { useState } from 'react';
import type { PersonId, ProductId, ScheduleId } from '../../../../core/ids.js';
import { give } from '../../../../log/commands/round.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now } from '../../../clock.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { nothingTold, ToldFields, toldOf } from '../../../parts/fields/told-fields.js';
import { VolumeField, volumeIn } from '../../../parts/fields/volume-field.js';
import { WhenField } from '../../../parts/fields/when-field.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { usePeople, usePerson, useShelter } from '../../../store/here.js';
import type { DoProps } from './doing.js';

const ways = ['papers', 'telephone'] as const;

/** A treatment that somebody else reports: a foster home, another clinic, papers. It is taken as told. */
export function ElsewhereSheet({ animal, onClose }: DoProps) {
  const shelter = useShelter();
  const { formulary, protocol } = shelter;
  const [product, setProduct] = useState<ProductId | null>(null);
  const [lotText, setLotText] = useState('');
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  const [note, setNote] = useState('');
  const [at, setAt] = useState<string | null>(now);
  const [opened] = useState(now);
  const found = formulary?.products.find((one) => one.id === product);
  const schedules = (protocol?.schedules ?? []).filter(
    (one) => one.action === 'give' && one.satisfiedBy.some((name) => found?.classes.includes(name)),
  );
  const [schedule, setSchedule] = useState<ScheduleId | null>(null);
  const meant = schedules.find((one) => one.id === schedule)?.id ?? schedules[0]?.id ?? null;
  const volume = volumeIn(text, null, chosen);
  const person = usePerson();
  const [way, setWay] = useState<(typeof ways)[number] | null>(null);
  const [who, setWho] = useState<PersonId | 'none'>('none');
  const [heard, setHeard] = useState(nothingTold);
  const others = usePeople().filter((one) => one.active && one.id !== person?.id);
  const intent = (): Intent => {
    if (way === null) return { missing: say('told.way') };
    const told = way === 'telephone' ? toldOf(heard) : null;
    if (way === 'telephone' && told === null) return { missing: say('told.needs-read-back') };
    if (found === undefined) return { missing: say('desk.elsewhere.needs-product') };
    if (at === null) return { missing: say('parts.time-wrong') };
    if (text.trim() !== '' && volume === null) return { missing: say('desk.correct.needs-volume') };
    const drafts = give(
      animal.id,
      {
        schedule: meant,
        product: found.id,
        lot: null,
        lotText,
        volume_ul: volume,
        route: found.route,
        here: false,
        told,
        note,
      },
      at,
    );
    return way === 'telephone' && who !== 'none' ? drafts.map((one) => ({ ...one, by: who })) : drafts;
  };
  return (
    <RecordSheet
      title={say('desk.do-title.elsewhere', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.elsewhere.record')}
      onClose={onClose}
    >
      <p className="soft">{say('desk.elsewhere.lead')}</p>
      <Pick
        label={say('desk.stock.product')}
        options={(formulary?.products ?? []).map(({ id, name, route }) => ({ id, label: name, note: route }))}
        value={product}
        onChange={setProduct}
      />
      {schedules.length > 1 ? (
        <Pick
          label={say('desk.due.treatment')}
          options={schedules.map(({ id, name }) => ({ id, label: name }))}
          value={meant}
          onChange={setSchedule}
          narrow
        />
      ) : null}
      <WhenField label={say('desk.correct.when')} start={opened} onChange={setAt} />
      <VolumeField
        label={say('desk.elsewhere.volume')}
        text={text}
        onText={setText}
        chosen={chosen}
        onChosen={setChosen}
      />
      <Field label={say('desk.stock.lot')} value={lotText} onChange={setLotText} maxLength={60} narrow />
      <ChooseOne
        label={say('told.way')}
        options={ways.map((id) => ({ id, label: say(`told.way.${id}`) }))}
        value={way}
        onChange={setWay}
        flow
      />
      {way === 'telephone' ? (
        <>
          <Pick<PersonId | 'none'>
            label={say('told.who')}
            options={[
              { id: 'none' as const, label: say('told.somebody-else') },
              ...others.map((one) => ({ id: one.id, label: one.name, note: say(`parts.role.${one.role}`) })),
            ]}
            value={who}
            onChange={setWho}
            narrow
          />
          <ToldFields value={heard} onChange={setHeard} from={who === 'none'} />
        </>
      ) : null}
      <Field label={say('desk.elsewhere.who')} value={note} onChange={setNote} maxLength={500} />
    </RecordSheet>
  );
}
