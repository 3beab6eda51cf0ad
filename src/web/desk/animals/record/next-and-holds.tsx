import { useState } from 'react';
import type { Animal, PlacedHold } from '../../../../core/animal/animal.js';
import type { DueStatus } from '../../../../core/protocol/due.js';
import { liftHold } from '../../../../log/commands/animal.js';
import { scheduleNamed } from '../../../../log/views/due/schedules.js';
import type { Shelter } from '../../../../log/views/shelter.js';
import { dueIn } from '../../../../log/views/world.js';
import { holdWords, observationWords } from '../../../../told/codes.js';
import { personName, say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { DataTable } from '../../../parts/data-table.js';
import { Field } from '../../../parts/fields/field.js';
import { Part } from '../../../parts/page.js';
import { RecordSheet } from '../../../parts/record-sheet.js';
import { useShelter, useWorld } from '../../../store/here.js';
import { DueTable } from '../../due/due-table.js';
import { Orders } from '../../orders/orders.js';

/** What comes next by the signed protocol, the holds people have placed, and what was seen. */
export function NextAndHolds({ animal }: { animal: Animal }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const [lifting, setLifting] = useState<PlacedHold | null>(null);
  const order: readonly DueStatus[] = [
    'to-confirm',
    'ended-missed',
    'overdue',
    'due',
    'when-needed',
    'on-hold',
    'not-yet',
    'complete',
    'aged-out',
    'not-recommended',
  ];
  const rows = [...dueIn(world, animal, today)]
    .sort((a, b) => order.indexOf(a.status) - order.indexOf(b.status))
    .map((item) => ({ animal, item }));
  return (
    <>
      <Part title={say('desk.next.title')}>
        {rows.length === 0 ? (
          <p>{say('desk.due.no-protocol')}</p>
        ) : (
          <>
            <DueTable rows={rows} caption={say('desk.next.title')} withoutAnimal />
            {world.shelter.protocol === null ? null : (
              <p className="soft small">
                {say('desk.doc.by-version', {
                  title: world.shelter.protocol.title,
                  version: world.shelter.protocol.version,
                })}
              </p>
            )}
          </>
        )}
      </Part>
      <Orders animal={animal} />
      {animal.holds.length === 0 ? null : (
        <Part title={say('desk.holds.title')}>
          <Holds holds={animal.holds} onLift={setLifting} />
        </Part>
      )}
      {animal.observations.length === 0 ? null : (
        <Part title={say('desk.seen.title')}>
          <DataTable
            caption={say('desk.seen.title')}
            rows={[...animal.observations].reverse()}
            keyOf={(one) => one.record}
            columns={[
              {
                id: 'what',
                label: say('desk.seen.what'),
                names: true,
                cell: (one) =>
                  one.answer !== undefined
                    ? say('desk.lamp.seen', { answer: say(`desk.lamp.${one.answer}`) })
                    : say(one.state === 'present' ? 'desk.seen.present' : 'desk.seen.absent', {
                        what: observationWords(one.code),
                      }),
              },
              { id: 'on', label: say('desk.seen.on'), cell: (one) => <span className="mono small">{one.on}</span> },
              {
                id: 'until',
                label: say('desk.seen.until'),
                cell: (one) =>
                  one.until === null ? say('desk.no-end') : <span className="mono small">{one.until}</span>,
              },
              { id: 'note', label: say('desk.seen.note'), cell: (one) => one.note },
            ]}
          />
        </Part>
      )}
      {lifting === null ? null : <LiftSheet animal={animal} hold={lifting} onClose={() => setLifting(null)} />}
    </>
  );
}

const whatOf = (shelter: Shelter, { schedules }: PlacedHold): string =>
  schedules === 'all'
    ? say('desk.hold.everything')
    : schedules.map((id) => scheduleNamed(shelter, id)?.name ?? id).join(', ');

const whyOf = ({ code, note }: PlacedHold): string => `${holdWords(code)}${note === '' ? '' : `: ${note}`}`;

function Holds({ holds, onLift }: { holds: readonly PlacedHold[]; onLift: (hold: PlacedHold) => void }) {
  const shelter = useShelter();
  const today = useToday(shelter.zone);
  return (
    <DataTable
      caption={say('desk.holds.title')}
      rows={holds}
      keyOf={(hold) => hold.record}
      columns={[
        { id: 'what', label: say('desk.holds.what'), names: true, cell: (hold) => whatOf(shelter, hold) },
        {
          id: 'why',
          label: say('desk.holds.why'),
          cell: whyOf,
        },
        { id: 'from', label: say('desk.holds.from'), cell: (hold) => <span className="mono small">{hold.from}</span> },
        {
          id: 'until',
          label: say('desk.seen.until'),
          cell: (hold) => (hold.until === null ? say('desk.no-end') : <span className="mono small">{hold.until}</span>),
        },
        {
          id: 'recheck',
          label: say('desk.holds.recheck'),
          cell: (hold) => (hold.recheckOn === null ? '' : <span className="mono small">{hold.recheckOn}</span>),
        },
        {
          id: 'owner',
          label: say('desk.holds.owner'),
          cell: (hold) => (hold.owner === null ? say('desk.holds.nobody') : personName(hold.owner)),
        },
        {
          id: 'do',
          label: say('desk.flags.do'),
          cell: (hold) =>
            hold.until !== null && hold.until < today ? (
              say('desk.holds.over')
            ) : (
              <Act size="small" onAct={() => onLift(hold)}>
                {say('desk.holds.lift')}
              </Act>
            ),
        },
      ]}
    />
  );
}

function LiftSheet({ animal, hold, onClose }: { animal: Animal; hold: PlacedHold; onClose: () => void }) {
  const shelter = useShelter();
  const [note, setNote] = useState('');
  return (
    <RecordSheet
      title={say('desk.holds.lift-title')}
      intent={liftHold(animal.id, hold.record, note, now())}
      action={say('desk.holds.lift')}
      onClose={onClose}
    >
      <p>
        <b>{whatOf(shelter, hold)}</b>: {whyOf(hold)}
      </p>
      <Field label={say('desk.holds.lift-why')} value={note} onChange={setNote} lines maxLength={500} />
    </RecordSheet>
  );
}
