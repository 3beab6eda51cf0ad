import { useState } from 'react';
import { toConfirm } from '../../../../core/dosing/before-signing.js';
import type { FormularyDocument } from '../../../../core/dosing/formulary.js';
import { signDocument } from '../../../../log/commands/signing.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { ChooseSome, Tick } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePerson, useShelter } from '../../../store/here.js';
import { Differences } from './differences.js';

interface SignFormularyProps {
  readonly document: FormularyDocument;
  readonly onClose: () => void;
}

/** A licensed veterinarian signs a formulary; it is in force from then on, and the one before is retired. */
export function SignFormulary({ document, onClose }: SignFormularyProps) {
  const shelter = useShelter();
  const person = usePerson();
  const today = useToday(shelter.zone);
  const [statement, setStatement] = useState(say('desk.sign-doc.statement'));
  const [read, setRead] = useState(false);
  const open = toConfirm(document);
  const [confirmed, setConfirmed] = useState<string[]>([]);
  const signed = shelter.formularies.find((one) => one.state === 'signed')?.document ?? null;
  const intent = (): Intent => {
    if (person === null) return { missing: say('parts.nobody-working') };
    if (!read) return { missing: say('desk.sign-doc.needs-read') };
    const { id, version } = document;
    const what = { document: 'formulary' as const, id, version, on: today, statement: statement.trim(), confirmed };
    return signDocument(shelter, person, what, now());
  };
  return (
    <RecordSheet
      title={say('desk.sign-doc.title', { document: say('desk.document.formulary'), version: document.version })}
      intent={intent()}
      action={say('desk.documents.sign')}
      wide
      onClose={onClose}
    >
      <Notice tone="attention">{document.caution}</Notice>
      <p>{say('desk.sign-doc.as', { name: person?.name ?? '', licence: person?.licence ?? '' })}</p>
      <Differences before={signed} after={document} />
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
