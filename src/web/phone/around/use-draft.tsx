import { useEffect, useState } from 'react';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { store, useWho } from '../../store/here.js';

interface Kept {
  readonly by: string;
  readonly text: string;
}
/** What was typed and not recorded, by the place it was typed in. */
const kept = new Map<string, Kept>();

export interface DraftOf {
  readonly text: string;
  readonly setText: (text: string | ((before: string) => string)) => void;
  /** What somebody else left in this place; null when there is nothing. */
  readonly left: Kept | null;
  readonly take: () => void;
  readonly drop: () => void;
}

/**
 * A text that belongs to the person who typed it: after a change of person the field is empty, and what the other one
 * left is offered under that name. `place` tells one field from all others.
 */
export function useDraft(place: string): DraftOf {
  const { person } = useWho();
  const by = person ?? '';
  const there = kept.get(place) ?? null;
  const [, redraw] = useState(0);
  useEffect(
    () => () => {
      // Whoever leaves a field behind has thrown its text away; a change of person leaves it to the next one's eyes.
      if (kept.get(place)?.by === store.who.get().person) kept.delete(place);
    },
    [place],
  );
  const mine = there?.by === by ? there.text : '';
  const keep = (text: string): void => {
    if (text === '') kept.delete(place);
    else kept.set(place, { by, text });
    redraw((count) => count + 1);
  };
  return {
    text: mine,
    setText: (text) => {
      const now = kept.get(place);
      keep(typeof text === 'string' ? text : text(now?.by === by ? now.text : ''));
    },
    left: there !== null && there.by !== by ? there : null,
    take: () => keep(there?.text ?? ''),
    drop: () => keep(''),
  };
}

/** What another person typed here and did not record, under that person's name: take it over, or throw it away. */
export function LeftHere({ draft }: { draft: DraftOf }) {
  const { left } = draft;
  if (left === null) return null;
  const name = personName(left.by);
  return (
    <Notice tone="attention">
      {say('round.draft.left', { name, text: left.text })}
      <div className="act-two">
        <Act size="mid" onAct={draft.take}>
          {say('round.draft.take')}
        </Act>
        <Act size="mid" onAct={draft.drop}>
          {say('round.draft.drop')}
        </Act>
      </div>
    </Notice>
  );
}
