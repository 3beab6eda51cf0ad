import { useState } from 'react';
import { contradictions } from '../../../../core/dosing/before-signing.js';
import { FormularyDocument } from '../../../../core/dosing/formulary.js';
import { documentFile } from '../../../../exports/document-file.js';
import { fileFormulary } from '../../../../log/commands/shelter.js';
import type { Filed } from '../../../../log/views/documents/filed.js';
import { say } from '../../../../words/say.js';
import { now } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { download } from '../../../parts/download.js';
import { Field } from '../../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePerson, useShelter } from '../../../store/here.js';
import { nextVersion } from '../protocol/edited.js';
import { FileButton } from '../protocol/file-button.js';
import { FileProblems } from '../protocol/file-problems.js';
import { type FileProblem, readDocumentFile } from '../protocol/read-file.js';
import { Differences, differencesOf } from './differences.js';

/** A formulary as a file: saved by everybody, read back by the medical team and laid down as a draft. */
export function FileActs({ shown }: { shown: FormularyDocument }) {
  const { formularies: filed } = useShelter();
  const person = usePerson();
  const [problems, setProblems] = useState<readonly FileProblem[]>([]);
  const [read, setRead] = useState<FormularyDocument | null>(null);
  const medical = person?.role === 'medical';
  const taken = filed.map((one) => one.document.version);
  const take = (text: string): void => {
    const found = readDocumentFile(text, FormularyDocument);
    setProblems(found.ok ? [] : found.problems);
    if (!found.ok) return;
    const { document } = found;
    setRead(taken.includes(document.version) ? { ...document, version: nextVersion(taken) } : document);
  };
  const save = (): void => download(documentFile('formulary', shown));
  return (
    <div className="stack tight no-print">
      <div className="row">
        <Act onAct={save}>{say('formulary-desk.export')}</Act>
        {medical ? <FileButton label={say('formulary-desk.import')} onText={take} /> : null}
      </div>
      <p className="soft small">{say(medical ? 'formulary-desk.by-file' : 'formulary-desk.medical-only')}</p>
      <FileProblems problems={problems} />
      {read === null ? null : <LayDown read={read} filed={filed} onClose={() => setRead(null)} />}
    </div>
  );
}

interface LayDownProps {
  readonly read: FormularyDocument;
  readonly filed: readonly Filed<FormularyDocument>[];
  readonly onClose: () => void;
}

/** What the file changes, what it contradicts, and the number under which it becomes a draft. */
function LayDown({ read, filed, onClose }: LayDownProps) {
  const [version, setVersion] = useState(read.version);
  const signed = filed.find((one) => one.state === 'signed')?.document ?? null;
  const document = { ...read, version: version.trim() };
  const faults = contradictions(document);
  const wrong = (): string | null => {
    if (document.version === '') return say('formulary-desk.version-empty');
    const there = filed.some((one) => one.document.version === document.version);
    return there ? say('formulary-desk.version-taken', { version: document.version }) : null;
  };
  const same = signed !== null && differencesOf(signed, document).length === 0;
  const missing = wrong() ?? (same ? say('formulary-desk.nothing-differs', { version: signed.version }) : null);
  const intent: Intent = missing === null ? fileFormulary(document, now()) : { missing };
  return (
    <RecordSheet
      title={say('formulary-desk.read')}
      intent={intent}
      action={say('formulary-desk.lay-down')}
      wide
      onClose={onClose}
    >
      <Field
        label={say('formulary-desk.version')}
        value={version}
        onChange={setVersion}
        wrong={wrong()}
        maxLength={30}
        narrow
        required
      />
      {faults.length === 0 ? null : (
        <Notice tone="stop">
          {say('formulary-desk.faults')}
          <ul>
            {faults.map((fault) => (
              <li key={say(fault)}>{say(fault)}</li>
            ))}
          </ul>
        </Notice>
      )}
      <Differences before={signed} after={document} />
    </RecordSheet>
  );
}
