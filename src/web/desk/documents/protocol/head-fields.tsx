import { useState } from 'react';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { Field } from '../../../parts/fields/field.js';
import { withHead } from './edited.js';

interface HeadFieldsProps {
  readonly document: ProtocolDocument;
  /** Versions that exist already. */
  readonly taken: readonly string[];
  readonly onChange: (document: ProtocolDocument) => void;
}

/** Number, title and caution of the version being written. What does not fit stays in its field and is not taken over. */
export function HeadFields({ document, taken, onChange }: HeadFieldsProps) {
  const [head, setHead] = useState({ version: document.version, title: document.title, caution: document.caution });
  const type = (part: Partial<typeof head>): void => {
    const next = { ...head, ...part };
    setHead(next);
    const edited = withHead(document, { ...next, version: next.version.trim() });
    if (edited.ok) onChange(edited.document);
  };
  const empty = say('protocol-desk.not-empty');
  return (
    <div className="sheet stack">
      <Field
        label={say('desk.documents.version')}
        value={head.version}
        onChange={(version) => type({ version })}
        wrong={
          head.version.trim() === ''
            ? empty
            : taken.includes(head.version.trim())
              ? say('desk.choose.version-taken')
              : null
        }
        maxLength={30}
        narrow
      />
      <Field
        label={say('protocol-desk.title-field')}
        value={head.title}
        onChange={(title) => type({ title })}
        wrong={head.title.trim() === '' ? empty : null}
        maxLength={200}
      />
      <Field
        label={say('protocol-desk.caution-field')}
        value={head.caution}
        onChange={(caution) => type({ caution })}
        wrong={head.caution.trim() === '' ? empty : null}
        lines
        maxLength={1000}
      />
    </div>
  );
}
