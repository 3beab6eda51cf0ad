import { useState } from 'react';
import { useLocation } from 'wouter';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { documentFile } from '../../../../exports/document-file.js';
import type { Filed } from '../../../../log/views/documents/filed.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { download } from '../../../parts/download.js';
import { GoButton } from '../../../parts/links.js';
import { Sheet } from '../../../parts/sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePerson } from '../../../store/here.js';
import { nextVersion } from './edited.js';
import { FileButton } from './file-button.js';
import { FileProblems } from './file-problems.js';
import { comparePath, copyPath, signPath } from './paths.js';
import { type FileProblem, readProtocolFile } from './read-file.js';
import { keepCopy, useCopy } from './working-copy.js';

interface VersionActsProps {
  readonly shown: Filed<ProtocolDocument>;
  readonly taken: readonly string[];
}

/** What can be done with a version: copy it to be changed, read one from a file, save it, compare it, sign it. */
export function VersionActs({ shown, taken }: VersionActsProps) {
  const person = usePerson();
  const copy = useCopy();
  const [, go] = useLocation();
  const [problems, setProblems] = useState<readonly FileProblem[]>([]);
  const [waiting, setWaiting] = useState<ProtocolDocument | null>(null);
  const medical = person?.role === 'medical';
  const { document, state } = shown;

  const begin = (next: ProtocolDocument): void => {
    if (copy !== null) {
      setWaiting(next);
      return;
    }
    keepCopy(next);
    go(copyPath);
  };
  const take = (text: string): void => {
    const read = readProtocolFile(text);
    setProblems(read.ok ? [] : read.problems);
    if (!read.ok) return;
    // A number that is taken here would be refused when it is laid down.
    begin(taken.includes(read.document.version) ? { ...read.document, version: nextVersion(taken) } : read.document);
  };
  const save = (): void => download(documentFile('protocol', document));
  return (
    <div className="stack tight no-print">
      <div className="row">
        {state === 'signed' ? null : (
          <>
            <GoButton to={signPath(document.version)} main>
              {say('protocol-desk.look-and-sign')}
            </GoButton>
            <GoButton to={comparePath(document.version)}>{say('protocol-desk.compare')}</GoButton>
          </>
        )}
        {medical ? (
          <Act onAct={() => begin({ ...document, version: nextVersion(taken) })}>{say('protocol-desk.copy')}</Act>
        ) : null}
        <Act onAct={save}>{say('protocol-desk.export')}</Act>
        {medical ? <FileButton label={say('protocol-desk.import')} onText={take} /> : null}
      </div>
      <p className="soft small">{say(medical ? 'protocol-desk.by-file' : 'protocol-desk.medical-only')}</p>
      {copy === null || !medical ? null : (
        <Notice tone="attention">
          {say('protocol-desk.copy-waits', { version: copy.version })}{' '}
          <GoButton to={copyPath}>{say('protocol-desk.go-on')}</GoButton>
        </Notice>
      )}
      <FileProblems problems={problems} />
      {waiting === null ? null : (
        <Sheet title={say('protocol-desk.copy-there')} open firm onClose={() => setWaiting(null)}>
          <p>{say('protocol-desk.copy-there-why', { version: copy?.version ?? '' })}</p>
          <div className="row">
            <GoButton to={copyPath} main>
              {say('protocol-desk.go-on')}
            </GoButton>
            <Act
              stop
              onAct={() => {
                keepCopy(waiting);
                go(copyPath);
              }}
            >
              {say('protocol-desk.replace-copy')}
            </Act>
            <Act onAct={() => setWaiting(null)}>{say('parts.back')}</Act>
          </div>
        </Sheet>
      )}
    </div>
  );
}
