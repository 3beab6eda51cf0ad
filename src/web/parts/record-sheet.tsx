import { type ReactNode, useState } from 'react';
import type { Outcome, Said, SayValues } from '../../core/said.js';
import { kinds } from '../../log/kinds/index.js';
import type { Draft, LogRecord } from '../../log/record.js';
import { tell } from '../../told/tell.js';
import type { Tellable } from '../../told/tellable.js';
import { say } from '../../words/say.js';
import { useWorld } from '../store/here.js';
import { useSave } from '../store/save.js';
import { Act } from './act.js';
import { Sheet } from './sheet.js';
import { Notice } from './state.js';

/** A form on its way to the record: what it would write, what is still missing, or why it cannot be. */
export type Intent = Outcome<Draft[]> | readonly Draft[] | { readonly missing: string };

/** Done before anything is recorded; nothing is recorded when it says no. */
type First = () => Promise<Outcome<null>>;

interface RecordSheetProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly intent: Intent;
  /** Words on the button that records. */
  readonly action: string;
  readonly stop?: boolean;
  readonly wide?: boolean;
  readonly onSaved?: (records: LogRecord[]) => void;
  readonly first?: First;
  readonly values?: SayValues;
  readonly children?: ReactNode;
}

/** A dialog that makes a record: the form, what will be recorded in words, and one button that does it. */
export function RecordSheet({
  title,
  onClose,
  intent,
  action,
  stop,
  wide,
  onSaved,
  children,
  ...foot
}: RecordSheetProps) {
  return (
    <Sheet title={title} open onClose={onClose} {...(wide === undefined ? {} : { wide })}>
      {children}
      <RecordFoot
        intent={intent}
        action={action}
        onBack={onClose}
        {...(stop === undefined ? {} : { stop })}
        {...foot}
        onSaved={(records) => {
          onSaved?.(records);
          onClose();
        }}
      />
    </Sheet>
  );
}

interface RecordFootProps {
  readonly intent: Intent;
  readonly action: string;
  readonly stop?: boolean;
  readonly onBack?: () => void;
  readonly onSaved: (records: LogRecord[]) => void;
  readonly first?: First;
  /** Said in the place of what the records would say, such as a name that is not known here yet. */
  readonly values?: SayValues;
}

export function RecordFoot({ intent, action, stop = false, onBack, onSaved, first, values }: RecordFootProps) {
  const world = useWorld();
  const [refused, setRefused] = useState<Said | null>(null);
  const { state, save } = useSave();
  const drafts = draftsOf(intent);
  const record = async (): Promise<void> => {
    if (drafts === null) return;
    const ready = await first?.();
    setRefused(ready?.ok === false ? ready.why : null);
    if (ready?.ok === false) return;
    const records = await save(drafts);
    if (records !== null) onSaved(records);
  };
  return (
    <>
      <div className="will-record">
        <h3>{say('parts.will-record')}</h3>
        {drafts === null ? (
          <p className="soft">{'missing' in intent ? intent.missing : whyNot(intent)}</p>
        ) : (
          <ul className="plain">
            {drafts.slice(0, 12).map((draft, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: drafts have no identity before they are recorded
              <li key={index}>{say(withOther(tell(world, whole(draft)), values))}</li>
            ))}
            {drafts.length > 12 ? <li>{say('parts.and-more', { count: drafts.length - 12 })}</li> : null}
          </ul>
        )}
      </div>
      {refused === null ? null : (
        <Notice tone="stop" live="alert">
          {say(refused)}
        </Notice>
      )}
      {state.is === 'failed' ? (
        <Notice tone="stop" live="alert">
          {say(state.why)}
        </Notice>
      ) : null}
      <div className="row">
        <Act main={!stop} stop={stop} size="mid" disabled={drafts === null} onAct={record}>
          {state.is === 'saving' ? say('parts.saving') : action}
        </Act>
        {onBack === undefined ? null : <Act onAct={onBack}>{say('parts.back')}</Act>}
      </div>
    </>
  );
}

const withOther = (sentence: Said, values: SayValues = {}): Said => ({
  ...sentence,
  with: { ...sentence.with, ...values },
});

function draftsOf(intent: Intent): readonly Draft[] | null {
  if ('missing' in intent) return null;
  if (!('ok' in intent)) return intent;
  return intent.ok ? intent.value : null;
}

const whyNot = (intent: Outcome<Draft[]> | readonly Draft[]): string =>
  'ok' in intent && !intent.ok ? say(intent.why) : say('parts.records-nothing-yet');

/** A draft with the defaults its kind will give it. */
function whole(draft: Draft): Tellable {
  const body = kinds[draft.kind].safeParse(draft.body);
  return { ...draft, body: body.success ? body.data : draft.body } as Tellable;
}
