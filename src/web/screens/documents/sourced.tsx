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
}

/** Given around a document that may be changed: how a part is changed, and which ones have been. */
export interface Changing {
  readonly change: (part: object, what: string) => void;
  readonly isChanged: (part: object) => boolean;
}
export const ChangeParts = createContext<Changing | null>(null);

/** Values of a document line by line, each with the title of its source and how far it may be trusted. */
export function SourcedLines({ lines, sources }: { lines: readonly SourcedValue[]; sources: readonly Source[] }) {
  if (lines.length === 0) return null;
  return (
    <ul className="plain sourced">
      {lines.map((line, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of a document that never changes
        <li key={index}>
          <span className="soft">{line.what}</span>
          <span className="row top">
            <b>{line.value}</b>
            <ChangeLine line={line} />
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

function ChangeLine({ line }: { line: SourcedValue }) {
  const changing = useContext(ChangeParts);
  const { part, what } = line;
  if (changing === null || part === undefined) return null;
  return (
    <>
      {changing.isChanged(part) ? <State tone="attention">{say('protocol-desk.changed')}</State> : null}
      <Act
        size="small"
        label={say('protocol-desk.change-of', { what, value: line.value })}
        onAct={() => changing.change(part, what)}
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
