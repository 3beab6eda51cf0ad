import { useState } from 'react';
import { Standing } from '../../../../core/dosing/formulary.js';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { sameValue } from '../../../../core/protocol/document/paths.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { Sheet } from '../../../parts/sheet.js';
import { Notice } from '../../../parts/state.js';
import { withoutValue, withSource, withValue } from './edited.js';
import { type Part, PartFields } from './part-fields.js';
import { emptySource, SourceFields } from './source-fields.js';
import { firstProblem, TakeFoot } from './take-foot.js';
import type { Way } from './ways.js';

interface PartSheetProps {
  readonly document: ProtocolDocument;
  readonly way: Way;
  readonly part: Part;
  readonly what: string;
  /** A value that is not there yet: its length of time is still to be said. */
  readonly fresh?: boolean;
  readonly onDone: (document: ProtocolDocument) => void;
  readonly onClose: () => void;
}

const another = 'another-source';

/** One value of the version being written: the value itself, where it is from, and how far it may be trusted. */
export function PartSheet({ document, way, part, what, fresh = false, onDone, onClose }: PartSheetProps) {
  const [before] = useState<Part>(fresh ? { ...part, span: undefined } : part);
  const [now, setNow] = useState<Part>(before);
  const [source, setSource] = useState(emptySource);
  const [adding, setAdding] = useState(false);
  const standing = Standing.safeParse(now.standing).data ?? 'common-practice';
  const text = (key: string): string => (typeof now[key] === 'string' ? now[key] : '');
  const set = (key: string, value: unknown): void => setNow({ ...now, [key]: value });

  const base = adding ? withSource(document, source) : { document, id: text('source') || 'none' };
  const edited = withValue(base.document, way, { ...now, source: base.id }, { source: base.id, standing });
  const less = fresh ? null : withoutValue(document, way);
  const unsourced = !adding && text('source') === '';
  const unfit = Object.keys(part).some((key) => now[key] === undefined && part[key] !== undefined);
  const untitled = adding && source.title.trim() === '';
  const same = !adding && sameValue(now, before);
  const onlyValue = !same && !adding && now.source === part.source && now.standing === 'read' && !sameWords(now, part);
  const why = unfit
    ? say('protocol-desk.span-wrong')
    : untitled
      ? say('protocol-desk.source-needs-title')
      : unsourced
        ? say('protocol-desk.choose-source')
        : firstProblem(edited);
  return (
    <Sheet title={what} open firm={!same} onClose={onClose} wide>
      <PartFields opened={part} part={now} onChange={set} />
      <Pick
        label={say('desk.doc.source')}
        options={[
          ...document.sources.map((one) => ({ id: one.id as string, label: one.title, note: one.where })),
          { id: another, label: say('protocol-desk.another-source') },
        ]}
        value={adding ? another : text('source') || null}
        onChange={(id) => {
          setAdding(id === another);
          if (id !== another) set('source', id);
        }}
      />
      {adding ? <SourceFields source={source} onChange={setSource} /> : null}
      <ChooseOne
        label={say('protocol-desk.field.standing')}
        options={Standing.options.map((id) => ({ id, label: say(`desk.standing.${id}`) }))}
        value={standing}
        onChange={(next) => set('standing', next)}
      />
      <Field
        label={say('desk.doc.note')}
        value={text('note')}
        onChange={(next) => set('note', next)}
        lines
        maxLength={1000}
      />
      {onlyValue ? (
        <Notice tone="attention" live="status">
          {say('protocol-desk.still-read')}
        </Notice>
      ) : null}
      <TakeFoot
        edited={edited}
        why={why}
        waits={same}
        action={say('protocol-desk.take-over')}
        onDone={onDone}
        onClose={onClose}
      >
        {less === null ? null : (
          <Act
            stop
            disabled={!less.ok}
            onAct={() => {
              if (less.ok) onDone(less.document);
            }}
          >
            {say('protocol-desk.take-out')}
          </Act>
        )}
      </TakeFoot>
      {less === null || less.ok ? null : <p className="small soft">{say('protocol-desk.take-out-not')}</p>}
    </Sheet>
  );
}

/** Same but for the grounds. */
const sameWords = (a: Part, b: Part): boolean =>
  sameValue({ ...a, standing: '', note: '' }, { ...b, standing: '', note: '' });
