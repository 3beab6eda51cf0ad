import type { ReactNode } from 'react';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { Notice } from '../../../parts/state.js';
import type { Edited } from './edited.js';

interface TakeFootProps {
  readonly edited: Edited;
  /** Why it cannot be taken over, in a sentence; null when that stands at its field or nothing is wrong. */
  readonly why: string | null;
  /** True while something in the fields does not fit, or nothing was changed. */
  readonly waits?: boolean;
  readonly action: string;
  readonly onDone: (document: ProtocolDocument) => void;
  readonly onClose: () => void;
  /** Further buttons. */
  readonly children?: ReactNode;
}

/** The foot of a dialog that changes the version being written: why not yet, take it over, or go back. */
export function TakeFoot({ edited, why, waits = false, action, onDone, onClose, children }: TakeFootProps) {
  return (
    <>
      {why === null ? null : (
        <Notice tone="stop" live="status">
          {why}
        </Notice>
      )}
      <div className="row">
        <Act
          main
          disabled={waits || why !== null || !edited.ok}
          onAct={() => {
            if (edited.ok) onDone(edited.document);
          }}
        >
          {action}
        </Act>
        <Act onAct={onClose}>{say('parts.back')}</Act>
        {children}
      </div>
    </>
  );
}

/** The first thing that the document itself has against a change. */
export const firstProblem = (edited: Edited): string | null =>
  edited.ok ? null : (edited.problems[0]?.sentence ?? '');
