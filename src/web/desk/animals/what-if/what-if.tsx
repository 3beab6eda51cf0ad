import { useMemo, useState } from 'react';
import type { Animal } from '../../../../core/animal/animal.js';
import { maximum } from '../../../../core/calendar.js';
import { dueOf } from '../../../../log/views/due/due.js';
import { dueIn } from '../../../../log/views/world.js';
import { say } from '../../../../words/say.js';
import { useToday } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { Part } from '../../../parts/page.js';
import { Notice } from '../../../parts/state.js';
import { useWorld } from '../../../store/here.js';
import { TimeLine } from '../time-line/time-line.js';
import { Differences } from './differences.js';
import { compareDue, type Pretence, pretendedAnimal, pretends } from './pretence.js';
import { PretenceFields } from './pretence-fields.js';

/** Pretend a day, a weight, a dose or something seen, and see what would be due. Nothing of it is ever recorded. */
export function WhatIf({ animal }: { animal: Animal }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const [open, setOpen] = useState(false);
  const [asked, setAsked] = useState<Partial<Pretence>>({});
  const pretence = useMemo<Pretence>(() => {
    const dose = asked.dose ?? null;
    const day = asked.day ?? today;
    // A dose of a day to come can only be judged on that day.
    return {
      day: dose === null ? day : maximum(day, dose.on),
      grams: asked.grams ?? null,
      dose,
      seen: asked.seen ?? null,
    };
  }, [asked, today]);
  const would = useMemo(() => pretendedAnimal(animal, pretence), [animal, pretence]);
  const rows = useMemo(
    () => (open ? compareDue(dueIn(world, animal, today), dueOf(would, world.shelter, pretence.day)) : []),
    [open, world, animal, today, would, pretence],
  );
  const pretended = pretends(pretence, today);
  return (
    <div className="no-print">
      <Part
        title={say('what-if.title')}
        acts={<Act onAct={() => setOpen(!open)}>{say(open ? 'what-if.close' : 'what-if.open')}</Act>}
      >
        {open ? (
          <div className="sheet stack">
            <Notice tone="attention">{say('what-if.not-recorded')}</Notice>
            <PretenceFields key={animal.id} today={today} pretence={pretence} onChange={setAsked} />
            {pretended ? (
              <>
                <Differences rows={rows} day={pretence.day} />
                <TimeLine
                  animal={would}
                  today={pretence.day}
                  label={say('what-if.time-line')}
                  dayWords={say('what-if.pretended-day')}
                />
              </>
            ) : (
              <p>{say('what-if.nothing-yet')}</p>
            )}
          </div>
        ) : null}
      </Part>
    </div>
  );
}
