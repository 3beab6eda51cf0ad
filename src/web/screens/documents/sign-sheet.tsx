import { useState } from 'react';
import { toConfirm } from '../../../core/dosing/before-signing.js';
import type { FormularyDocument } from '../../../core/dosing/formulary.js';
import type { ProtocolDocument } from '../../../core/protocol/document.js';
import { signDocument } from '../../../log/commands/shelter.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { ChooseSome, Tick } from '../../parts/choices.js';
import { Field } from '../../parts/field.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { usePerson, useShelter } from '../../store/here.js';
import { EffectOfSigning } from './effect-of-signing.js';
import { Differences } from './formulary/differences.js';

interface SignSheetProps {
  readonly kind: 'protocol' | 'formulary';
  readonly document: ProtocolDocument | FormularyDocument;
  readonly onClose: () => void;
}

/** A licensed veterinarian signs a version; it is in force from then on, and the one before is retired. */
export function SignSheet({ kind, document, onClose }: SignSheetProps) {
  const shelter = useShelter();
  const person = usePerson();
  const today = useToday(shelter.zone);
  const [statement, setStatement] = useState(say('desk.sign-doc.statement'));
  const [read, setRead] = useState(false);
  const open = 'products' in document ? toConfirm(document) : [];
  const [confirmed, setConfirmed] = useState<string[]>([]);
  const intent = (): Intent => {
    if (person === null) return { missing: say('parts.nobody-working') };
    if (!read) return { missing: say('desk.sign-doc.needs-read') };
    return signDocument(
      shelter,
      person,
      {
        document: kind,
        id: document.id,
        version: document.version,
        on: today,
        statement: statement.trim(),
        confirmed,
      },
      now(),
    );
  };
  return (
    <RecordSheet
      title={say('desk.sign-doc.title', { document: say(`desk.document.${kind}`), version: document.version })}
      intent={intent()}
      action={say('desk.documents.sign')}
      wide
      onClose={onClose}
    >
      <Notice tone="attention">{document.caution}</Notice>
      <p>{say('desk.sign-doc.as', { name: person?.name ?? '', licence: person?.licence ?? '' })}</p>
      {'schedules' in document ? (
        <EffectOfSigning protocol={document} />
      ) : (
        <Differences
          before={shelter.formularies.find((one) => one.state === 'signed')?.document ?? null}
          after={document}
        />
      )}
      {open.length === 0 ? null : (
        <ChooseSome
          label={say('drawup.sign.confirm', { done: confirmed.length, all: open.length })}
          options={open.map((one) => ({ id: one.key, label: say(one.what) }))}
          value={confirmed}
          onChange={setConfirmed}
        />
      )}
      <Field label={say('desk.sign-doc.words')} value={statement} onChange={setStatement} lines maxLength={1000} />
      <Tick label={say('desk.sign-doc.read')} value={read} onChange={setRead} />
    </RecordSheet>
  );
}
