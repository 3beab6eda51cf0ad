import { useMemo, useState } from 'react';
import { RoundId } from '../../../core/ids.js';
import { roundView } from '../../../log/views/round/round.js';
import { treatmentSheet } from '../../../papers/sheet/treatment-sheet.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { useWorld } from '../../store/here.js';
import { keyInPath } from './paths.js';
import { SheetTables, usePageNumbers } from './sheet-tables.js';

/**
 * The treatment sheet on the screen and for the printer. Each section begins a page and is a table of its own, whose head
 * stands on every page; an animal is never parted.
 */
export function TreatmentSheet({ params }: { params: { id: string } }) {
  const world = useWorld();
  const [at] = useState(now);
  usePageNumbers();
  const sheet = useMemo(() => {
    const id = RoundId.safeParse(decodeURIComponent(params.id));
    const view = id.success ? roundView(world, id.data) : null;
    return view === null ? null : treatmentSheet(world, view, at);
  }, [world, params.id, at]);
  if (sheet === null) return <Page title={say('desk.round.unknown')}>{null}</Page>;
  return (
    <Page
      title={say('ribbon.sheet.title')}
      beside={say('ribbon.sheet.beside', { on: { date: sheet.on } })}
      lead={say('ribbon.sheet.lead')}
      acts={
        <>
          <GoButton to={keyInPath}>{say('ribbon.key-in.title')}</GoButton>
          <Act main onAct={() => window.print()}>
            {say('parts.print')}
          </Act>
        </>
      }
    >
      <SheetTables sheet={sheet} />
    </Page>
  );
}
