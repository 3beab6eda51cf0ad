import { useMemo } from 'react';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { type Effect, effectOfSigning } from '../../../log/views/documents/effect-of-signing.js';
import { inCare } from '../../../log/views/world.js';
import { stateOfDue } from '../../../told/due-words.js';
import { nameOf } from '../../../told/names.js';
import type { Tone } from '../../../told/tone.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { DataTable } from '../../parts/data-table.js';
import { AnimalLink } from '../../parts/links.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';

const changes = ['newly-due', 'no-longer-due', 'moved', 'otherwise'] as const;
const tones: Readonly<Record<Effect['change'], Tone>> = {
  'newly-due': 'attention',
  'no-longer-due': 'stop',
  moved: 'attention',
  otherwise: 'plain',
};
/** Names written out in a summary cell; the table below has all of them. */
const namesShown = 80;
const rowsShown = 300;

const asText = (item: DueItem | null): string =>
  item === null
    ? say('parts.none')
    : say('desk.effect.item', {
        status: stateOfDue(item).text,
        due: item.due === null ? '' : { date: item.due },
      });

/** What signing this version would change for the animals that are here today: counts, names and dates. */
export function EffectOfSigning({ protocol }: { protocol: ProtocolDocument }) {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const { effects, animals, bySchedule } = useMemo(
    () => effectOfSigning({ shelter, animals: inCare(world) }, protocol, today),
    [world, shelter, protocol, today],
  );
  return (
    <div className="stack tight">
      <p role="status">
        <b>{say('desk.effect.count', { count: effects.length, animals })}</b>
      </p>
      {effects.length === 0 ? null : (
        <>
          <DataTable
            caption={say('desk.effect.by-schedule')}
            rows={bySchedule}
            keyOf={(row) => row.schedule}
            columns={[
              { id: 'schedule', label: say('desk.due.treatment'), names: true, cell: (row) => row.name },
              ...changes.map((change) => ({
                id: change,
                label: say(`desk.effect.change.${change}`),
                cell: (row: (typeof bySchedule)[number]) => (
                  <Affected
                    change={change}
                    effects={effects.filter((one) => one.schedule === row.schedule && one.change === change)}
                  />
                ),
              })),
            ]}
          />
          <details>
            <summary>{say('desk.effect.show')}</summary>
            <DataTable
              caption={say('desk.effect.show')}
              rows={effects.slice(0, rowsShown)}
              keyOf={(effect) => `${effect.animal.id} ${effect.schedule}`}
              columns={[
                {
                  id: 'name',
                  label: say('desk.animal.animal'),
                  names: true,
                  cell: (effect) => <AnimalLink animal={effect.animal} />,
                },
                { id: 'what', label: say('desk.due.treatment'), cell: (effect) => effect.scheduleName },
                {
                  id: 'change',
                  label: say('what-if.change'),
                  cell: (effect) => (
                    <State tone={tones[effect.change]}>{say(`desk.effect.change.${effect.change}`)}</State>
                  ),
                },
                { id: 'before', label: say('desk.effect.before'), cell: (effect) => asText(effect.before) },
                { id: 'after', label: say('desk.effect.after'), cell: (effect) => asText(effect.after) },
              ]}
            />
            {effects.length > rowsShown ? (
              <p>{say('desk.effect.more', { count: effects.length - rowsShown })}</p>
            ) : null}
          </details>
        </>
      )}
    </div>
  );
}

function Affected({ change, effects }: { change: Effect['change']; effects: readonly Effect[] }) {
  if (effects.length === 0) return null;
  const shown = effects.slice(0, namesShown);
  const days = [...new Set(shown.map(moveOf))];
  const rest = effects.length - namesShown;
  return (
    <>
      <State tone={tones[change]}>{String(effects.length)}</State>
      {days.map((day) => (
        <div key={day} className="small">
          {named(shown.filter((one) => moveOf(one) === day))}
        </div>
      ))}
      {rest > 0 ? <div className="small">{say('parts.and-more', { count: rest })}</div> : null}
    </>
  );
}

/** Animals that move alike stand together: the two days, or nothing where no day moves. */
const moveOf = ({ change, before, after }: Effect): string =>
  change === 'moved' && before?.due != null && after?.due != null ? `${before.due} ${after.due}` : '';

function named(effects: readonly Effect[]): string {
  const names = effects.map(({ animal }) => nameOf(animal)).join(', ');
  const [first] = effects;
  const { before, after } = first ?? {};
  return first === undefined || moveOf(first) === '' || before?.due == null || after?.due == null
    ? names
    : say('desk.effect.moved-names', { from: { date: before.due }, to: { date: after.due }, names });
}
