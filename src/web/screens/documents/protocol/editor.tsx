import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { ProtocolDocument } from '../../../../core/protocol/document.js';
import { fileProtocol } from '../../../../log/commands/shelter.js';
import { say } from '../../../../words/say.js';
import { now } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { Page, Part } from '../../../parts/page.js';
import { type Intent, RecordFoot } from '../../../parts/record-sheet.js';
import { Sheet } from '../../../parts/sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePerson, useShelter } from '../../../store/here.js';
import { EffectOfSigning } from '../effect-of-signing.js';
import { ProtocolView } from '../protocol-view.js';
import { ChangeParts, type Changing } from '../sourced.js';
import { sideBySide } from './changes.js';
import { ChangesTable } from './changes-table.js';
import { HeadFields } from './head-fields.js';
import { NewSourceSheet } from './new-source-sheet.js';
import type { Part as SourcedPart } from './part-fields.js';
import { PartSheet } from './part-sheet.js';
import { signPath } from './paths.js';
import { ScheduleSwitches } from './schedule-switches.js';
import { type Way, waysIn } from './ways.js';
import { keepCopy, useCopy } from './working-copy.js';

/** The version that is being written on this device; read by all who open it, changed by the medical team. */
export function Editor() {
  const copy = useCopy();
  const person = usePerson();
  if (copy === null) return <Page title={say('protocol-desk.draft-title')}>{say('protocol-desk.no-copy')}</Page>;
  if (person?.role !== 'medical') {
    return <Page title={say('protocol-desk.draft-title')}>{say('protocol-desk.medical-only')}</Page>;
  }
  return <Writing copy={copy} />;
}

interface Open {
  readonly way: Way;
  readonly part: SourcedPart;
  readonly what: string;
}

function Writing({ copy }: { copy: ProtocolDocument }) {
  const shelter = useShelter();
  const [, go] = useLocation();
  const [open, setOpen] = useState<Open | null>(null);
  const [doing, setDoing] = useState<'source' | 'away' | null>(null);
  const signed = shelter.protocol;
  const rows = useMemo(
    () => (signed === null ? [] : sideBySide(signed, copy).filter((row) => row.change !== 'same')),
    [signed, copy],
  );
  const changing = useMemo<Changing>(() => {
    const ways = waysIn(copy);
    const changed = new Set(rows.map((row) => row.key));
    return {
      change: (part, what) => {
        const way = ways.get(part);
        if (way !== undefined) setOpen({ way, part: part as SourcedPart, what });
      },
      isChanged: (part) => changed.has((ways.get(part) ?? []).join(' › ')),
    };
  }, [copy, rows]);
  const taken = shelter.protocols.filter((one) => one.document.id === copy.id).map((one) => one.document.version);
  const intent = (): Intent =>
    taken.includes(copy.version) ? { missing: say('desk.choose.version-taken') } : fileProtocol(copy, now());
  return (
    <Page
      title={say('protocol-desk.draft-title')}
      beside={`${copy.title} ${copy.version}`}
      lead={say('protocol-desk.draft-lead')}
      acts={<Act onAct={() => setDoing('away')}>{say('protocol-desk.put-away')}</Act>}
    >
      <HeadFields document={copy} taken={taken} onChange={keepCopy} />
      <Part title={say('protocol-desk.changes')}>
        {signed === null ? (
          <p>{say('protocol-desk.nothing-signed')}</p>
        ) : (
          <>
            <ChangesTable rows={rows} before={signed} after={copy} caption={say('protocol-desk.changes')} />
            <EffectOfSigning protocol={copy} />
          </>
        )}
        <RecordFoot
          intent={intent()}
          action={say('desk.choose.lay-down')}
          onSaved={() => {
            keepCopy(null);
            go(signPath(copy.version));
          }}
        />
      </Part>
      <Notice tone="attention">{copy.caution}</Notice>
      <div className="row">
        <Act onAct={() => setDoing('source')}>{say('protocol-desk.add-source')}</Act>
      </div>
      <ScheduleSwitches document={copy} onChange={keepCopy} />
      <ChangeParts.Provider value={changing}>
        <ProtocolView protocol={copy} inForce={false} />
      </ChangeParts.Provider>
      {open === null ? null : (
        <PartSheet
          document={copy}
          {...open}
          onDone={(document) => {
            keepCopy(document);
            setOpen(null);
          }}
          onClose={() => setOpen(null)}
        />
      )}
      {doing === 'source' ? (
        <NewSourceSheet document={copy} onChange={keepCopy} onClose={() => setDoing(null)} />
      ) : null}
      {doing === 'away' ? <PutAway changes={rows.length} onClose={() => setDoing(null)} /> : null}
    </Page>
  );
}

function PutAway({ changes, onClose }: { changes: number; onClose: () => void }) {
  const [, go] = useLocation();
  return (
    <Sheet title={say('protocol-desk.put-away')} open firm onClose={onClose}>
      <p>{say('protocol-desk.put-away-why', { count: changes })}</p>
      <div className="row">
        <Act
          stop
          onAct={() => {
            go('/documents');
            keepCopy(null);
          }}
        >
          {say('protocol-desk.put-away')}
        </Act>
        <Act onAct={onClose}>{say('parts.back')}</Act>
      </div>
    </Sheet>
  );
}
