import type { CalendarDate } from '../../../core/calendar.js';
import { inCare } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Pick } from '../../parts/fields/pick.js';
import { useWorld } from '../../store/here.js';
import { type DueFilter, orders, shows } from './due-list.js';

interface FiltersProps {
  readonly filter: DueFilter;
  readonly onFilter: (filter: DueFilter) => void;
  readonly day: CalendarDate;
  readonly onDay: (day: CalendarDate | null) => void;
}

/** Which part of the list is shown, and in which order. */
export function DueFilters({ filter, onFilter, day, onDay }: FiltersProps) {
  const world = useWorld();
  const { shelter } = world;
  const everything = { id: 'all', label: say('desk.due.everything') };
  const litters = new Map(inCare(world).flatMap(({ litter }) => (litter === null ? [] : [[litter.id, litter.name]])));
  return (
    <div className="stack tight no-print">
      <ChooseOne
        label={say('desk.due.show')}
        options={shows.map((id) => ({ id, label: say(`desk.due.show.${id}`) }))}
        value={filter.show}
        onChange={(show) => onFilter({ ...filter, show })}
        flow
      />
      <div className="row end filters">
        <Pick
          label={say('desk.section.name')}
          options={[everything, ...shelter.sections.map(({ id, name }) => ({ id: id as string, label: name }))]}
          value={filter.section}
          onChange={(section) => onFilter({ ...filter, section })}
        />
        <Pick
          label={say('desk.animal.litter')}
          options={[everything, ...[...litters].map(([id, name]) => ({ id: id ?? '', label: name ?? '' }))]}
          value={filter.litter}
          onChange={(litter) => onFilter({ ...filter, litter })}
        />
        <Pick
          label={say('desk.due.treatment')}
          options={[
            everything,
            ...(shelter.protocol?.schedules ?? []).map(({ id, name }) => ({ id: id as string, label: name })),
          ]}
          value={filter.schedule}
          onChange={(schedule) => onFilter({ ...filter, schedule })}
        />
        <DayField label={say('desk.due.on')} value={day} onChange={onDay} />
        <Pick
          label={say('desk.due.by')}
          options={orders.map((id) => ({ id, label: say(`desk.due.by.${id}`) }))}
          value={filter.by}
          onChange={(by) => onFilter({ ...filter, by })}
          narrow
        />
      </div>
    </div>
  );
}
