import { createContext, useContext } from 'react';
import type { Source, Standing } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { State } from '../../parts/state.js';

export interface SourcedValue {
  readonly what: string;
  readonly value: string;
  readonly source: string;
  readonly standing: Standing;
  readonly note: string;
  /** The object of the document that this line shows. */
  readonly part?: object;
  /** The series and dose it belongs to, for where the line stands alone. */
  readonly where?: string;
}

/** Given around a document that may be changed: how a part is changed, and which ones have been. */
export interface Changing {
  readonly change: (part: object, what: string) => void;
  readonly isChanged: (part: object) => boolean;
}
export const ChangeParts = createContext<Changing | null>(null);

interface SourcedLinesProps {
  readonly lines: readonly SourcedValue[];
  readonly sources: readonly Source[];
  /** Treatment, series and dose: what buttons in the lines say besides the value. */
  readonly place?: string;
}

/** Values of a document line by line, each with the title of its source and how far it may be trusted. */
export function SourcedLines({ lines, sources, place = '' }: SourcedLinesProps) {
  if (lines.length === 0) return null;
  return (
    <ul className="plain sourced">
      {lines.map((line, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of a document that never changes
        <li key={index}>
          <span className="soft">{line.what}</span>
          <span className="row base">
            <b>{line.value}</b>
            <ChangeLine line={line} place={place} />
          </span>
          <span className="small">
            <SourceTitle id={line.source} sources={sources} />{' '}
            <span className="soft">{`${say(`desk.standing.${line.standing}`)}${line.note === '' ? '' : `. ${line.note}`}`}</span>
          </span>
        </li>
      ))}
    </ul>
  );
}

function ChangeLine({ line, place }: { line: SourcedValue; place: string }) {
  const changing = useContext(ChangeParts);
  const { part, what } = line;
  if (changing === null || part === undefined) return null;
  const named = place === '' ? what : say('desk.doc.in-place', { place, what });
  return (
    <>
      {changing.isChanged(part) ? <State tone="attention">{say('protocol-desk.changed')}</State> : null}
      <Act
        size="small"
        label={say('protocol-desk.change-of', { what: named, value: line.value })}
        onAct={() => changing.change(part, named)}
      >
        {say('protocol-desk.change')}
      </Act>
    </>
  );
}

export function SourceTitle({ id, sources }: { id: string; sources: readonly Source[] }) {
  const source = sources.find((one) => one.id === id);
  if (source === undefined) return <>{id}</>;
  const text = source.where === '' ? source.title : `${source.title}, ${source.where}`;
  return source.url === '' ? (
    <span>{text}</span>
  ) : (
    <a href={source.url} target="_blank" rel="noreferrer">
      {text}
    </a>
  );
}

export function SourceList({ sources }: { sources: readonly Source[] }) {
  return (
    <ol className="plain small">
      {sources.map((source) => (
        <li key={source.id}>
          <SourceTitle id={source.id} sources={sources} />
        </li>
      ))}
    </ol>
  );
}
