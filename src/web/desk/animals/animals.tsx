import { useState } from 'react';
import type { Animal } from '../../../core/animal/animal.js';
import { byPlace, dueIn } from '../../../log/views/world.js';
import { ageSaid, chipText, marksLine, placeSaid } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { DataTable } from '../../parts/data-table.js';
import { ChipTrust } from '../../parts/fields/chip-trust.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { AnimalLink, GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { findAnimals } from './find-animals.js';
import { LeftAnimals } from './left-animals.js';
import { notSettled } from './not-settled.js';

const shown = ['here', 'left'] as const;
/** Rows drawn at once; more are found by typing. */
const most = 300;

export function Animals() {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const [text, setText] = useState('');
  const [show, setShow] = useState<(typeof shown)[number]>('here');
  const [section, setSection] = useState('all');
  const all = [...world.animals.values()]
    .filter((animal) => animal.left === null)
    .filter((animal) => section === 'all' || animal.section === section)
    .sort(byPlace(shelter));
  const rows = findAnimals(all, text);
  const dueNow = (animal: Animal) =>
    dueIn(world, animal, today).filter((item) => item.status === 'due' || item.status === 'overdue');
  return (
    <Page
      title={say('desk.animals.title')}
      beside={show === 'left' ? undefined : say('desk.animals.count', { count: rows.length })}
      acts={
        <>
          <GoButton to="/import">{say('desk.animals.import')}</GoButton>
          <GoButton to="/animals/new" main>
            {say('desk.animals.new')}
          </GoButton>
        </>
      }
    >
      <div className="row end filters no-print">
        <Field
          label={say('desk.animals.find')}
          value={text}
          onChange={setText}
          type="search"
          hint={say('desk.animals.find-hint')}
        />
        <Pick
          label={say('desk.section.name')}
          options={[
            { id: 'all', label: say('desk.due.everything') },
            ...shelter.sections.map(({ id, name }) => ({ id: id as string, label: name })),
          ]}
          value={section}
          onChange={setSection}
        />
        <ChooseOne
          label={say('desk.due.show')}
          options={shown.map((id) => ({ id, label: say(`desk.animals.show.${id}`) }))}
          value={show}
          onChange={setShow}
          flow
        />
      </div>
      {show === 'left' ? <LeftAnimals text={text} /> : null}
      {show === 'left' ? null : (
        <DataTable
          caption={say('desk.animals.title')}
          rows={rows.slice(0, most)}
          keyOf={(animal) => animal.id}
          empty={text === '' ? say('desk.animals.none') : say('desk.animals.none-found', { text })}
          columns={[
            {
              id: 'name',
              label: say('desk.animal.animal'),
              names: true,
              cell: (animal) => (
                <>
                  <AnimalLink animal={animal} />
                  {animal.litter === null ? null : <div className="soft small">{animal.litter.name}</div>}
                </>
              ),
            },
            {
              id: 'label',
              label: say('desk.animal.number'),
              keepLine: true,
              cell: (animal) => <span className="mono small">{animal.label}</span>,
            },
            {
              id: 'place',
              label: say('desk.animal.place'),
              cell: (animal) => say(placeSaid(shelter, animal.section, animal.kennel)),
            },
            { id: 'age', label: say('desk.animal.age'), cell: (animal) => say(ageSaid(animal.born, today)) },
            { id: 'marks', label: say('desk.animal.marks'), cell: (animal) => marksLine(animal) },
            {
              id: 'chip',
              label: say('desk.animal.chip'),
              keepLine: true,
              cell: (animal) =>
                animal.chip === null ? (
                  ''
                ) : (
                  <>
                    <span className="mono small">{chipText(animal.chip.code)}</span>
                    <ChipTrust animal={animal} />
                  </>
                ),
            },
            {
              id: 'due',
              label: say('desk.animal.due-now'),
              cell: (animal) => {
                const items = dueNow(animal);
                const late = items.some((item) => item.status === 'overdue');
                return (
                  <>
                    {notSettled(world, animal, today).map(({ key, tone, text }) => (
                      <div key={key}>
                        <State tone={tone}>{text}</State>
                      </div>
                    ))}
                    {items.length === 0 ? null : (
                      <State tone={late ? 'stop' : 'attention'}>
                        {items.map((item) => item.scheduleName).join(', ')}
                      </State>
                    )}
                  </>
                );
              },
            },
          ]}
        />
      )}
      {show === 'here' && rows.length > most ? (
        <p className="soft">{say('desk.animals.more', { count: rows.length - most })}</p>
      ) : null}
    </Page>
  );
}
