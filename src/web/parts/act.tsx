import { type ReactNode, useId, useRef, useState, useSyncExternalStore } from 'react';
import { isResting, onRest, rest } from './rest.js';

interface ActProps {
  readonly children: ReactNode;
  /** A second press while the first is at work, or within a moment of it, is not a second act, wherever it lands. */
  readonly onAct?: () => unknown;
  readonly main?: boolean;
  readonly stop?: boolean;
  readonly size?: 'big' | 'mid' | 'small' | 'quiet';
  readonly disabled?: boolean;
  /** Why it cannot be pressed now; the sentence stands directly above it. Null or left out: it can. */
  readonly why?: string | null;
  readonly submit?: boolean;
  readonly label?: string;
}

export function Act({ children, onAct, main, stop, size, disabled = false, why = null, submit, label }: ActProps) {
  const reason = useId();
  const [busy, setBusy] = useState(false);
  const resting = useSyncExternalStore(onRest, isResting);
  const held = useRef(false);
  const press = async (): Promise<void> => {
    if (held.current || isResting() || onAct === undefined) return;
    held.current = true;
    // At once: what is shown next may stand there before the act is over.
    rest();
    try {
      const work = onAct();
      if (work instanceof Promise) {
        setBusy(true);
        await work.finally(() => setBusy(false));
      }
    } finally {
      held.current = false;
      rest();
    }
  };
  const name = ['btn', main ? 'main' : '', stop ? 'stop' : '', size ?? ''].filter((word) => word !== '').join(' ');
  const button = (
    <button
      className={name}
      disabled={disabled || why !== null}
      {...(why === null ? {} : { 'aria-describedby': reason })}
      aria-disabled={busy || resting}
      data-busy={busy || undefined}
      data-held={busy || resting || undefined}
      type={submit ? 'submit' : 'button'}
      {...(onAct === undefined ? {} : { onClick: () => void press() })}
      {...(label === undefined ? {} : { 'aria-label': label })}
    >
      {children}
    </button>
  );
  return (
    <>
      {why === null ? null : (
        <p id={reason} className="why">
          <span aria-hidden="true">△ </span>
          {why}
        </p>
      )}
      {button}
    </>
  );
}

/** The one heavy thing of a phone screen. */
export const BigButton = (props: Omit<ActProps, 'size' | 'main'>) => <Act {...props} main size="big" />;
