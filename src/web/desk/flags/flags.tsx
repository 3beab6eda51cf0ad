import { useState } from 'react';
import type { Role } from '../../../core/people.js';
import { flagsIn } from '../../../log/flags/flags.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Page } from '../../parts/page.js';
import { usePerson, useWorld } from '../../store/here.js';
import { FlagTable } from './flag-table.js';
import { LeftFlags } from './left-flags.js';

const shown = ['mine', 'open', 'answered'] as const;

export function Flags() {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const person = usePerson();
  const [show, setShow] = useState<(typeof shown)[number]>('open');
  const flags = flagsIn(world, today);
  const rows = flags.filter((flag) => {
    if (show === 'answered') return flag.state === 'answered';
    if (flag.state === 'answered') return false;
    return show === 'open' || person === null || flag.for.includes(person.role as Role);
  });
  const open = flags.filter((flag) => flag.state !== 'answered').length;
  return (
    <Page
      wide
      title={say('desk.flags.title')}
      beside={say('desk.flags.beside', { count: open })}
      acts={<Act onAct={() => window.print()}>{say('parts.print')}</Act>}
    >
      <div className="no-print">
        <ChooseOne
          label={say('desk.due.show')}
          options={shown.map((id) => ({ id, label: say(`desk.flags.show.${id}`) }))}
          value={show}
          onChange={setShow}
          flow
        />
      </div>
      <FlagTable flags={rows} />
      {show === 'answered' ? null : <LeftFlags />}
    </Page>
  );
}
