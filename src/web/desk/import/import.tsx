import { useState } from 'react';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { download } from '../../parts/download.js';
import { Page } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';
import { type Done, Judge } from './judge.js';
import { type OpenFile, openFile } from './open-file.js';
import { PickFile } from './pick-file.js';

/** Animals from a file: choose it, say what its columns mean, look at every row, then bring it in as one batch. */
export function Import() {
  const shelter = useShelter();
  const [file, setFile] = useState<OpenFile | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [done, setDone] = useState<Done | null>(null);
  const take = async (chosen: File): Promise<void> => {
    setDone(null);
    const opened = await openFile(chosen);
    setWrong(opened.ok ? null : say(opened.why));
    setFile(opened.ok ? opened.value : null);
  };
  return (
    <Page title={say('desk.import.title')} lead={say('desk.import.lead')}>
      {done === null ? null : (
        <Notice tone="done" live="status">
          {done.words}
        </Notice>
      )}
      {done === null || done.rest.count === 0 ? null : (
        <div className="row">
          <Act onAct={() => download(done.rest.file)}>{say('desk.import.save-rest', { count: done.rest.count })}</Act>
        </div>
      )}
      {wrong === null ? null : (
        <Notice tone="stop" live="alert">
          {wrong}
        </Notice>
      )}
      {file === null ? (
        <>
          <PickFile onFile={take} />
          {shelter.files.length === 0 ? null : (
            <ul className="plain small">
              {shelter.files.map((one) => (
                <li key={`${one.digest} ${one.at}`}>
                  {say('desk.import.before', {
                    name: one.name,
                    at: { instant: one.at },
                    accepted: one.accepted,
                    doubtful: one.doubtful,
                    refused: one.refused,
                  })}
                </li>
              ))}
            </ul>
          )}
        </>
      ) : (
        <>
          <div className="row">
            <span>
              {say('desk.import.file', {
                name: file.name,
                encoding: file.encoding,
                rows: file.table.rows.length,
                sign: say(`desk.import.delimiter.${delimiterNames[file.table.delimiter]}`),
              })}
            </span>
            <Act size="small" onAct={() => setFile(null)}>
              {say('desk.import.other-file')}
            </Act>
          </div>
          {file.doubts.map((doubt) => (
            <Notice key={`${doubt.say} ${JSON.stringify(doubt.with)}`} tone="attention">
              {say(doubt)}
            </Notice>
          ))}
          <Judge
            key={file.digest}
            file={file}
            onDone={(now) => {
              setFile(null);
              setDone(now);
            }}
          />
        </>
      )}
    </Page>
  );
}

const delimiterNames = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar' } as const;
