import { type ReactNode, useEffect, useRef } from 'react';
import type { Said } from '../../../core/said.js';
import { say } from '../../../words/say.js';
import { Notice } from '../../parts/state.js';

interface ScanAnswerProps {
  /** What was heard: another object for every scan, so that the same answer given again is brought into sight again. */
  readonly of: object;
  readonly children: ReactNode;
}

/** What a scan answers: brought into sight and focus at once, wherever the page was scrolled to, and kept at its head. */
export function ScanAnswer({ of, children }: ScanAnswerProps) {
  const place = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: every scan is a reason to look at its answer again
  useEffect(() => {
    place.current?.scrollIntoView({ block: 'start' });
    place.current?.focus({ preventScroll: true });
  }, [of]);
  return (
    <div className="scan-answer" ref={place} tabIndex={-1}>
      {children}
    </div>
  );
}

/** Why what came in is no whole chip number; null while nothing was wrong. */
export function BadScan({ why }: { why: Said | null }) {
  return why === null ? null : (
    <ScanAnswer of={why}>
      <Notice tone="stop" live="alert">
        {say(why)}
      </Notice>
    </ScanAnswer>
  );
}
