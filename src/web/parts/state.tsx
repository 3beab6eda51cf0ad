import type { ReactNode } from 'react';
import type { Tone } from '../../told/tone.js';

export const glyphOf: Readonly<Record<Tone, string>> = {
  done: '✓',
  attention: '△',
  stop: '■',
  running: '◷',
  plain: '·',
};

/** A state: glyph, word and colour together; the word alone says it too. */
export function State({ tone, children }: { tone: Tone; children: ReactNode }) {
  return (
    <span className={`state ${tone}`}>
      <span aria-hidden="true">{glyphOf[tone]}</span>
      <span>{children}</span>
    </span>
  );
}

/** A word in a ruled frame, for something nobody has seen to yet. */
export function Tag({ tone, children }: { tone: Tone; children: ReactNode }) {
  return (
    <span className={`state ${tone}`}>
      <span className="tag">{children}</span>
    </span>
  );
}

interface NoticeProps {
  readonly tone: Tone;
  readonly children: ReactNode;
  /** `alert` interrupts a screen reader; the default is read when it is reached, or politely when it appears. */
  readonly live?: 'alert' | 'status';
}

export function Notice({ tone, children, live }: NoticeProps) {
  return (
    <div className={`notice ${tone}`} role={live}>
      <span className={`state ${tone}`} aria-hidden="true">
        {glyphOf[tone]}
      </span>{' '}
      {children}
    </div>
  );
}
