import { useState } from 'react';
import type { AnimalId } from '../../../../core/ids.js';
import { flagsIn } from '../../../../log/flags/flags.js';
import { inCare } from '../../../../log/views/world.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { useToday } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { Page, Part } from '../../../parts/page.js';
import { Notice } from '../../../parts/state.js';
import { useWorld } from '../../../store/here.js';
import { useOpened } from '../../../store/use-opened.js';
import { FlagTable } from '../../flags/flag-table.js';
import { TimeLine } from '../time-line/time-line.js';
import { WhatIf } from '../what-if/what-if.js';
import { AnimalHead } from './animal-head.js';
import { DoSheets } from './do-sheets.js';
import type { Doing } from './doing.js';
import { Happened } from './happened.js';
import { NextAndHolds } from './next-and-holds.js';
import { AsOf, NotHere } from './not-here.js';
import { Unsettled } from './unsettled.js';
import { WeightCurve } from './weight-curve.js';

const doings = ['weigh', 'observe', 'hold', 'order', 'elsewhere', 'move', 'describe', 'leave'] as const;

/** One animal: what it is, what is next, what holds it up, how it grows, and everything that happened. */
export function AnimalRecord({ params }: { params: { id: string } }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const [doing, setDoing] = useState<Doing | null>(null);
  const id = decodeURIComponent(params.id) as AnimalId;
  const opened = useOpened(id);
  const animal = world.animals.get(id);
  if (animal === undefined && opened.is !== 'here') return <NotHere id={id} opened={opened} />;
  if (animal === undefined) {
    return (
      <Page title={say('desk.animal.unknown')}>
        {say(world.unknown.has(id) ? 'desk.animal.unknown-has-records' : 'desk.animal.unknown-why', {
          count: inCare(world).length,
        })}
      </Page>
    );
  }
  const damaged = world.unread.filter(({ subject }) => subject === `animal:${animal.id}`).length;
  const flags = flagsIn(world, today).filter((flag) => flag.animal === animal.id && flag.state !== 'answered');
  return (
    <Page
      title={nameOf(animal)}
      beside={
        animal.label === '' || animal.label === animal.name ? undefined : <span className="mono">{animal.label}</span>
      }
    >
      {animal.left === null ? null : <AsOf opened={opened} />}
      {damaged === 0 ? null : <Notice tone="stop">{say('desk.animal.damaged', { count: damaged })}</Notice>}
      <AnimalHead animal={animal} />
      <Unsettled animal={animal} />
      <div className="row no-print">
        {doings
          .filter((one) => animal.left === null || one === 'describe')
          .map((one) => (
            <Act key={one} onAct={() => setDoing(one)}>
              {say(`desk.do.${one}`)}
            </Act>
          ))}
        <Act onAct={() => window.print()}>{say('parts.print')}</Act>
      </div>
      {flags.length === 0 ? null : (
        <Part title={say('desk.flags.title')}>
          <FlagTable flags={flags} />
        </Part>
      )}
      {animal.left === null ? <NextAndHolds animal={animal} /> : null}
      {animal.left === null ? (
        <Part title={say('timeline.title')}>
          <TimeLine animal={animal} today={today} label={say('timeline.title')} />
        </Part>
      ) : null}
      {animal.left === null ? <WhatIf animal={animal} /> : null}
      <Part title={say('desk.weights.title')}>
        <WeightCurve animal={animal} />
      </Part>
      <Part title={say('desk.happened.title')}>
        <Happened animal={animal} />
      </Part>
      {doing === null ? null : <DoSheets doing={doing} animal={animal} onClose={() => setDoing(null)} />}
    </Page>
  );
}
