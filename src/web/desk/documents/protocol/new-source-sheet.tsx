import { useState } from 'react';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { Sheet } from '../../../parts/sheet.js';
import { withSource } from './edited.js';
import { emptySource, SourceFields } from './source-fields.js';

interface NewSourceProps {
  readonly document: ProtocolDocument;
  readonly onChange: (document: ProtocolDocument) => void;
  readonly onClose: () => void;
}

/** A source for the list; values can then be taken from it. */
export function NewSourceSheet({ document, onChange, onClose }: NewSourceProps) {
  const [source, setSource] = useState(emptySource);
  return (
    <Sheet title={say('protocol-desk.add-source')} open onClose={onClose}>
      <SourceFields source={source} onChange={setSource} />
      <div className="row">
        <Act
          main
          disabled={source.title.trim() === ''}
          onAct={() => {
            onChange(withSource(document, source).document);
            onClose();
          }}
        >
          {say('protocol-desk.add-source')}
        </Act>
        <Act onAct={onClose}>{say('parts.back')}</Act>
      </div>
    </Sheet>
  );
}
