import { useState } from 'react';
import { OrderTerms } from '../../../../core/animal/vet-order.js';
import { addDays, type CalendarDate } from '../../../../core/calendar.js';
import { Route } from '../../../../core/dosing/exact-text.js';
import type { PersonId, ProductId } from '../../../../core/ids.js';
import type { Role } from '../../../../core/people.js';
import { type NewOrder, writeOrder } from '../../../../log/commands/order.js';
import { judgeOrder } from '../../../../log/views/doses/order-judged.js';
import { mayHear, rolesInWords } from '../../../../log/who-may.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { DayField } from '../../../parts/fields/day-field.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { nothingTold, ToldFields, toldOf } from '../../../parts/fields/told-fields.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { Sheet } from '../../../parts/sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePeople, usePerson, useShelter } from '../../../store/here.js';
import type { DoProps } from './doing.js';
import { OrderComesTo } from './order-comes-to.js';
import { noDose, OrderDoseFields, readDose, type TypedDose } from './order-dose-fields.js';
import { OrderOpensFields, readOpens, type TypedOpen } from './order-opens.js';
import { type OrderTimes, OrderTimingFields, readTimes, usualTimes } from './order-timing-fields.js';

const whoses = ['own', 'told'] as const;
const treats = ['product', 'words'] as const;

/** A veterinarian's order for this animal alone: what, how much, from when, how often, until when. */
export function OrderSheet({ animal, onClose }: DoProps) {
  const shelter = useShelter();
  const person = usePerson();
  const today = useToday(shelter.zone);
  const [name, setName] = useState('');
  const [is, setIs] = useState<(typeof treats)[number]>('product');
  const [product, setProduct] = useState<ProductId | null>(null);
  const [words, setWords] = useState('');
  const [dose, setDose] = useState<TypedDose>(noDose);
  const [meant, setMeant] = useState(false);
  const [starts, setStarts] = useState<CalendarDate | null>(today);
  const [times, setTimes] = useState<OrderTimes>(usualTimes);
  const [route, setRoute] = useState<Route | null>(null);
  const [opened, setOpened] = useState<readonly TypedOpen[]>([]);
  const [why, setWhy] = useState('');
  const own = person !== null && person.licence !== '';
  const [whose, setWhose] = useState<(typeof whoses)[number]>(own ? 'own' : 'told');
  const [vet, setVet] = useState<PersonId | null>(null);
  const [heard, setHeard] = useState(nothingTold);
  const hearers = mayHear['order-written'] ?? [];
  const may = person === null || own || hearers.includes(person.role as Role);
  const mayNot = say('desk.order.may-not', { roles: rolesInWords(hearers) });
  const vets = usePeople().filter((one) => one.active && one.licence !== '' && one.id !== person?.id);

  const treat: NewOrder['treat'] | null =
    is === 'words'
      ? words.trim() === ''
        ? null
        : { is, words: words.trim() }
      : product === null
        ? null
        : { is: 'product', product };
  const manner = treat?.is === 'words' ? { amount: dose.words.trim() } : readDose(dose);
  const often = readTimes(times);
  const order =
    treat === null || starts === null || manner === null || often === null
      ? null
      : { name: name.trim(), treat, starts, why, route: is === 'product' ? route : null, ...manner, ...often };
  const terms = order === null ? null : OrderTerms.safeParse({ ...order, name: 'x', vet: vet ?? person?.id ?? 'x' });
  const judged = terms?.success ? judgeOrder(shelter, animal, terms.data, now(), today) : [];
  const label = judged
    .flatMap((one) => one.label)
    .filter(({ code }, at, all) => all.findIndex((other) => other.code === code) === at);
  const opens = readOpens(label, opened);

  const intent = (): Intent => {
    if (person === null) return { missing: say('parts.nobody-working') };
    if (!may) return { missing: mayNot };
    if (name.trim() === '' || treat === null) return { missing: say('desk.order.needs-what') };
    if (starts === null) return { missing: say('parts.day-half') };
    if (manner === null) return { missing: say('desk.order.needs-dose') };
    if (often === null || order === null) return { missing: say('desk.order.needs-times') };
    if (terms !== null && !terms.success && order.steps?.length) return { missing: say('desk.order.needs-steps') };
    const [refused] = judged.flatMap((one) => one.refused);
    if (refused !== undefined) return { missing: say(refused.why) };
    if (!meant && judged.some((one) => one.beyond.length > 0)) return { missing: say('desk.order.needs-meant') };
    if (opens === null) return { missing: say('desk.order.needs-opens') };
    const said = { ...order, opens, meant: meant && judged.some((one) => one.beyond.length > 0) };
    if (whose === 'own') return writeOrder(shelter, person, animal.id, said, now(), null, animal.orders);
    const teller = vets.find((one) => one.id === vet);
    if (teller === undefined) return { missing: say('desk.order.needs-vet') };
    const told = toldOf(heard);
    if (told === null) return { missing: say('told.needs-read-back') };
    return writeOrder(shelter, teller, animal.id, said, now(), told, animal.orders);
  };
  const products = shelter.formulary?.products ?? [];
  if (!may) {
    return (
      <Sheet title={say('desk.do-title.order', { name: nameOf(animal) })} open onClose={onClose}>
        <Notice tone="attention">{mayNot}</Notice>
        <Act onAct={onClose}>{say('parts.close')}</Act>
      </Sheet>
    );
  }
  return (
    <RecordSheet
      title={say('desk.do-title.order', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.do.order')}
      onClose={onClose}
    >
      <p className="soft">{say('desk.order.lead')}</p>
      {own ? (
        <ChooseOne
          label={say('desk.order.whose')}
          options={whoses.map((id) => ({ id, label: say(`desk.order.whose.${id}`) }))}
          value={whose}
          onChange={setWhose}
          flow
        />
      ) : null}
      {whose === 'told' ? (
        <>
          <p className="soft">
            {say('desk.order.told-lead', { hours: String(shelter.protocol?.countersign?.hours ?? 'none') })}
          </p>
          <Pick<PersonId>
            label={say('desk.order.vet')}
            options={vets.map((one) => ({ id: one.id, label: one.name }))}
            value={vet}
            onChange={setVet}
            narrow
          />
          <ToldFields value={heard} onChange={setHeard} />
        </>
      ) : null}
      <ChooseOne
        label={say('desk.order.what')}
        options={treats.map((id) => ({ id, label: say(`desk.order.treat.${id}`) }))}
        value={is}
        onChange={setIs}
        flow
      />
      {is === 'product' ? (
        <Pick
          label={say('desk.stock.product')}
          options={products.map((one) => ({ id: one.id, label: one.name, note: one.route }))}
          value={product}
          onChange={(next) => {
            setProduct(next);
            setOpened([]);
          }}
        />
      ) : (
        <Field label={say('desk.order.words')} value={words} onChange={setWords} lines maxLength={500} />
      )}
      <Field
        label={say('desk.order.name')}
        hint={say('desk.order.name-hint')}
        value={name}
        onChange={setName}
        maxLength={80}
      />
      {is === 'words' ? (
        <Field
          label={say('desk.order.manner')}
          hint={say('desk.order.manner-hint')}
          value={dose.words}
          onChange={(words) => setDose({ ...dose, words })}
          maxLength={300}
        />
      ) : (
        <OrderDoseFields
          value={dose}
          onChange={(next) => {
            setDose(next);
            setMeant(false);
          }}
        />
      )}
      {is === 'product' ? (
        <Pick<Route | 'own'>
          label={say('desk.order.route')}
          options={[
            { id: 'own' as const, label: say('desk.order.route.own') },
            ...Route.options.map((id) => ({ id, label: id })),
          ]}
          value={route ?? 'own'}
          onChange={(next) => {
            setRoute(next === 'own' ? null : next);
            setMeant(false);
          }}
          narrow
        />
      ) : null}
      <DayField label={say('desk.order.starts')} value={starts} onChange={setStarts} />
      <OrderTimingFields value={times} onChange={setTimes} />
      <OrderComesTo judged={judged} meant={meant} onMeant={setMeant} />
      <OrderOpensFields stops={label} value={opened} until={lastDay(order, starts)} onChange={setOpened} />
      <Field label={say('desk.holds.why')} value={why} onChange={setWhy} maxLength={500} />
    </RecordSheet>
  );
}

/** The last day of an order that ends by days; null for any other. */
const lastDay = (order: Pick<NewOrder, 'ends'> | null, starts: CalendarDate | null): CalendarDate | null =>
  order === null || starts === null || order.ends.is !== 'after-days' ? null : addDays(starts, order.ends.days - 1);
