import type { Source, Standing } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';

export interface SourcedValue {
  readonly what: string;
  readonly value: string;
  readonly source: string;
  readonly standing: Standing;
  readonly note: string;
}

/** Values of a document line by line, each with the title of its source and how far it may be trusted. */
export function SourcedLines({ lines, sources }: { lines: readonly SourcedValue[]; sources: readonly Source[] }) {
  if (lines.length === 0) return null;
  return (
    <ul className="plain sourced">
      {lines.map((line, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of a document that never changes
        <li key={index}>
          <span className="soft">{line.what}</span>
          <b>{line.value}</b>
          <span className="small">
            <SourceTitle id={line.source} sources={sources} />{' '}
            <span className="soft">{`${say(`desk.standing.${line.standing}`)}${line.note === '' ? '' : `. ${line.note}`}`}</span>
          </span>
        </li>
      ))}
    </ul>
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
