import { useState } from 'react';
import type { Section } from '../../../log/views/shelter.js';
import { inCare } from '../../../log/views/world.js';
import { itemText } from '../../../told/item-text.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Facts } from '../../parts/facts.js';
import { Page } from '../../parts/page.js';
import { SectionStrip } from '../../parts/section-hatch.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { SectionSheet } from './section-sheet.js';

/** The sections in the order of a round, with what to put on, what to do on leaving, and the kennels. */
export function Sections() {
  const world = useWorld();
  const [editing, setEditing] = useState<Section | 'new' | null>(null);
  const animals = inCare(world);
  return (
    <Page
      title={say('desk.sections.title')}
      lead={say('desk.sections.lead')}
      acts={
        <Act main onAct={() => setEditing('new')}>
          {say('desk.start.add-section')}
        </Act>
      }
    >
      {world.shelter.sections.map((section) => (
        <div key={section.id} className="stack tight keep">
          <SectionStrip rank={section.rank} name={section.name} level={2}>
            {say('desk.sections.line', {
              rank: say(`parts.rank.${section.rank}`),
              count: animals.filter((animal) => animal.section === section.id).length,
            })}
          </SectionStrip>
          {section.closed ? <State tone="plain">{say('desk.sections.closed')}</State> : null}
          <Facts
            facts={[
              {
                word: say('desk.section.kennels'),
                value: <span className="mono small">{section.kennels.join(', ')}</span>,
              },
              { word: say('desk.section.wear'), value: section.wear.map(itemText).join(', ') },
              { word: say('desk.section.leave'), value: section.leave.map(itemText).join('. ') },
              {
                word: say('desk.section.contact'),
                value: say('desk.section.minutes', { minutes: section.contactMinutes }),
              },
            ]}
          />
          <div className="no-print">
            <Act
              size="small"
              label={say('desk.sections.change-one', { name: section.name })}
              onAct={() => setEditing(section)}
            >
              {say('desk.sections.change')}
            </Act>
          </div>
        </div>
      ))}
      {editing === null ? null : (
        <SectionSheet section={editing === 'new' ? null : editing} onClose={() => setEditing(null)} />
      )}
    </Page>
  );
}
