import { useEffect, useRef } from 'react';
import { noBurst, scanBurst, scanPause, usualBurst } from '../../../core/chip/scan-burst.js';

/**
 * Hears a reader that types like a keyboard, wherever the cursor is: the burst is taken as a scan and taken out again of
 * the field it landed in. What people type stays theirs.
 */
export function useScan(heard: (text: string) => void, listening = true): void {
  const latest = useRef(heard);
  latest.current = heard;
  useEffect(() => {
    if (!listening) return;
    let state = noBurst;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = (scan: { text: string; typed: number } | null): void => {
      if (scan === null) return;
      takeOut(scan.typed);
      latest.current(scan.text);
    };
    const onKey = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const step = scanBurst(state, { key: event.key, at_ms: event.timeStamp, repeat: event.repeat });
      state = step.state;
      if (step.swallow) {
        event.preventDefault();
        event.stopPropagation();
      }
      tell(step.scan);
      clearTimeout(timer);
      timer = setTimeout(() => {
        const pause = scanPause(state, performance.now());
        state = pause.state;
        tell(pause.scan);
      }, usualBurst.pause_ms + 20);
    };
    window.addEventListener('keydown', onKey, true);
    return () => {
      clearTimeout(timer);
      window.removeEventListener('keydown', onKey, true);
    };
  }, [listening]);
}

/** Remove the last characters that the reader has left in the field with the focus. */
function takeOut(typed: number): void {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
  const end = field.selectionStart ?? field.value.length;
  const text = field.value.slice(0, Math.max(0, end - typed)) + field.value.slice(end);
  const prototype = field instanceof HTMLInputElement ? HTMLInputElement.prototype : HTMLTextAreaElement.prototype;
  // The prototype's own setter, so that React notices the change.
  Object.getOwnPropertyDescriptor(prototype, 'value')?.set?.call(field, text);
  field.dispatchEvent(new Event('input', { bubbles: true }));
}
