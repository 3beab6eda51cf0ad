import { type ReactNode, useId, useRef, useState } from 'react';
import { Button } from 'react-aria-components';

interface ActProps {
  readonly children: ReactNode;
  /** A second press while the first is at work, or within a moment of it, is not a second act. */
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

/** Milliseconds in which a second press counts as the same one: an impatient or gloved double tap. */
const samePress_ms = 450;

export function Act({ children, onAct, main, stop, size, disabled = false, why = null, submit, label }: ActProps) {
  const reason = useId();
  const [busy, setBusy] = useState(false);
  /** Set at once, for a second press in the same frame; shown as well, for whoever waits until it may be pressed. */
  const held = useRef(false);
  const [shownHeld, showHeld] = useState(false);
  const press = async (): Promise<void> => {
    if (held.current || onAct === undefined) return;
    held.current = true;
    showHeld(true);
    const began = performance.now();
    const work = onAct();
    if (work instanceof Promise) {
      setBusy(true);
      await work.finally(() => setBusy(false));
    }
    setTimeout(
      () => {
        held.current = false;
        showHeld(false);
      },
      Math.max(0, samePress_ms - (performance.now() - began)),
    );
  };
  const name = ['btn', main ? 'main' : '', stop ? 'stop' : '', size ?? ''].filter((word) => word !== '').join(' ');
  const button = (
    <Button
      className={name}
      isDisabled={disabled || why !== null}
      {...(why === null ? {} : { 'aria-describedby': reason })}
      aria-disabled={busy}
      data-held={shownHeld || undefined}
      type={submit ? 'submit' : 'button'}
      {...(onAct === undefined ? {} : { onPress: () => void press() })}
      {...(label === undefined ? {} : { 'aria-label': label })}
    >
      {children}
    </Button>
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
