import { useState } from 'react';
import type { Animal } from '../../../core/animal/animal.js';
import type { PlacedOrder } from '../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { endOrder } from '../../../log/commands/order.js';
import { amountText, endSaid, rhythmSaid, treatSaid } from '../../../told/order-words.js';
import { writtenText } from '../../../told/written-text.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';
import { Part } from '../../parts/page.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { State } from '../../parts/state.js';
import { useShelter, useWorld } from '../../store/here.js';
import { CountersignSheet } from './countersign-sheet.js';

/** What veterinarians have ordered for this animal beside the protocol. */
export function Orders({ animal }: { animal: Animal }) {
  const world = useWorld();
  const [ending, setEnding] = useState<PlacedOrder | null>(null);
  const [signing, setSigning] = useState<PlacedOrder | null>(null);
  if (animal.orders.length === 0) return null;
  return (
    <Part title={say('desk.orders.title')}>
      <DataTable
        caption={say('desk.orders.title')}
        rows={animal.orders}
        keyOf={(one) => one.record}
        columns={[
          { id: 'name', label: say('desk.order.name'), names: true, cell: (one) => one.terms.name },
          {
            id: 'what',
            label: say('desk.order.what'),
            cell: ({ terms }) =>
              say('desk.order.what-of', {
                treat: treatSaid(world, terms),
                amount: amountText({ ...terms, steps: [] }),
              }),
          },
          {
            id: 'when',
            label: say('desk.due.when'),
            cell: ({ terms }) =>
              say('desk.order.when-of', {
                starts: { date: terms.starts },
                timing: rhythmSaid(terms),
                ends: endSaid(terms),
              }),
          },
          {
            id: 'by',
            label: say('desk.order.by'),
            cell: (one) => (
              <>
                {say('desk.order.by-of', { by: { person: one.terms.vet }, licence: { licenceOf: one.terms.vet } })}
                {one.written === undefined ? null : (
                  <div className="small">
                    <State tone={one.written.answered?.says === 'mine' ? 'plain' : 'attention'}>
                      {writtenText(one, world.shelter.protocol)}
                    </State>
                  </div>
                )}
              </>
            ),
          },
          {
            id: 'state',
            label: say('desk.due.state'),
            cell: (one) =>
              one.ended === null ? (
                <span className="row no-print">
                  {one.written?.answered === null ? (
                    <Act size="small" onAct={() => setSigning(one)}>
                      {say('order.countersign.open')}
                    </Act>
                  ) : null}
                  <Act size="small" onAct={() => setEnding(one)}>
                    {say('desk.order.end')}
                  </Act>
                </span>
              ) : (
                <State tone="plain">
                  {say('desk.order.ended', { on: { date: one.ended.on }, why: one.ended.why })}
                </State>
              ),
          },
        ]}
      />
      {signing === null ? null : <CountersignSheet animal={animal} order={signing} onClose={() => setSigning(null)} />}
      {ending === null ? null : <EndSheet animal={animal} order={ending} onClose={() => setEnding(null)} />}
    </Part>
  );
}

function EndSheet({ animal, order, onClose }: { animal: Animal; order: PlacedOrder; onClose: () => void }) {
  const { zone } = useShelter();
  const today = useToday(zone);
  const [on, setOn] = useState<CalendarDate | null>(today);
  const [why, setWhy] = useState('');
  const ready = on !== null && why.trim() !== '';
  return (
    <RecordSheet
      title={say('desk.order.end-title', { name: order.terms.name })}
      intent={
        ready ? endOrder(animal.id, order.record, on, why.trim(), now()) : { missing: say('desk.order.needs-why') }
      }
      action={say('desk.order.end')}
      stop
      onClose={onClose}
    >
      <DayField label={say('desk.order.end-on')} value={on} onChange={setOn} />
      <Field label={say('desk.holds.why')} value={why} onChange={setWhy} lines required maxLength={300} />
    </RecordSheet>
  );
}
