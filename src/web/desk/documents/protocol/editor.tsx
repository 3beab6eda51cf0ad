import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { ProtocolDocument, Schedule, Target } from '../../../../core/protocol/document/document.js';
import { limitsOutOfOrder } from '../../../../core/protocol/document/limits.js';
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
import { nameIn } from '../protocol-lines.js';
import { FrameTools, type FrameToolsFor, ProtocolView } from '../protocol-view.js';
import { ChangeParts, type Changing } from '../sourced.js';
import { sideBySide } from './changes.js';
import { ChangesTable } from './changes-table.js';
import { missingLimits, TargetTools, UnknownAge } from './frame-tools.js';
import { HeadFields } from './head-fields.js';
import { NewSourceSheet } from './new-source-sheet.js';
import type { Part as SourcedPart } from './part-fields.js';
import { PartSheet } from './part-sheet.js';
import { signPath } from './paths.js';
import { ScheduleSheet } from './schedule-sheet.js';
import { ScheduleSwitches } from './schedule-switches.js';
import { TargetSheet } from './target-sheet.js';
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
  readonly fresh?: boolean;
  /** Where the focus goes back to when the button that opened it is gone. */
  readonly back?: Element | null;
}

type Frame =
  | { readonly of: 'schedule'; readonly schedule: Schedule }
  | { readonly of: 'target'; readonly target: Target; readonly way: Way; readonly what: string };

function Writing({ copy }: { copy: ProtocolDocument }) {
  const shelter = useShelter();
  const [, go] = useLocation();
  const [open, setOpen] = useState<Open | null>(null);
  const [frame, setFrame] = useState<Frame | null>(null);
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
  const disorder = useMemo(() => limitsOutOfOrder(copy).map((one) => say(one)), [copy]);
  const intent = (): Intent => {
    if (taken.includes(copy.version)) return { missing: say('desk.choose.version-taken') };
    if (disorder.length > 0) return { missing: say('protocol-desk.disorder-first') };
    return fileProtocol(copy, now());
  };
  const tools = useMemo<FrameToolsFor>(() => {
    const ways = waysIn(copy);
    return {
      whole: (document) => <UnknownAge document={document} onChange={keepCopy} />,
      schedule: (schedule) => (
        <div className="row no-print">
          <Act
            size="small"
            label={say('protocol-desk.frame-of', { what: schedule.name })}
            onAct={() => setFrame({ of: 'schedule', schedule })}
          >
            {say('protocol-desk.frame-change')}
          </Act>
        </div>
      ),
      target: (target, place) => {
        const way = ways.get(target) ?? [];
        return (
          <TargetTools
            missing={missingLimits(target, way, nameIn(copy))}
            place={place}
            onFrame={() => setFrame({ of: 'target', target, way, what: place })}
            onAdd={({ what, ...limit }, back) =>
              setOpen({ ...limit, what: say('desk.doc.in-place', { place, what }), fresh: true, back })
            }
          />
        );
      },
    };
  }, [copy]);
  const shut = (): void => {
    const back = open?.back;
    setOpen(null);
    // The dialog has to be gone first: what lies under it cannot take the focus.
    if (back instanceof HTMLElement) setTimeout(() => back.focus(), 100);
  };
  const done = (document: ProtocolDocument): void => {
    keepCopy(document);
    shut();
    setFrame(null);
  };
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
        {disorder.length === 0 ? null : (
          <Notice tone="stop" live="status">
            {say('protocol-desk.disorder', { count: disorder.length })}
            <ul>
              {disorder.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </Notice>
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
      <p className="soft">{say('protocol-desk.by-file')}</p>
      <ChangeParts.Provider value={changing}>
        <FrameTools.Provider value={tools}>
          <ProtocolView protocol={copy} inForce={false} />
        </FrameTools.Provider>
      </ChangeParts.Provider>
      {open === null ? null : <PartSheet document={copy} {...open} onDone={done} onClose={shut} />}
      {frame?.of === 'schedule' ? (
        <ScheduleSheet document={copy} schedule={frame.schedule} onDone={done} onClose={() => setFrame(null)} />
      ) : null}
      {frame?.of === 'target' ? (
        <TargetSheet document={copy} {...frame} onDone={done} onClose={() => setFrame(null)} />
      ) : null}
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
