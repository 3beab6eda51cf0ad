import {
  type BurstState,
  noBurst,
  numberBurst,
  scanBurst,
  scanPause,
  slowBurst,
  usualBurst,
} from '../../core/chip/scan-burst.js';
import { scans } from './scan-queue.js';

/** The timer of a page that was busy fires late; keys that were struck meanwhile are still on their way. */
const late_ms = 30;

/**
 * Listens to every key of the page. A burst from a reader is taken as a scan wherever the cursor is, and what it has
 * typed into a field is taken out again; everything slower is typing and is left alone.
 */
export function catchScans(): void {
  let state: BurstState = noBurst;
  let pause: ReturnType<typeof setTimeout> | undefined;

  const deliver = (scan: { readonly text: string; readonly typed: number } | null): void => {
    if (scan === null) return;
    takeOut(document.activeElement, scan.text.slice(scan.text.length - scan.typed));
    scans.hear(scan.text);
  };

  const waitForSilence = (): void => {
    const { pause_ms } = rulesNow();
    const due = performance.now() + pause_ms + 10;
    pause = setTimeout(() => {
      if (performance.now() - due > late_ms) {
        waitForSilence();
        return;
      }
      const silent = scanPause(state, performance.now(), rulesNow());
      state = silent.state;
      deliver(silent.scan);
    }, pause_ms + 10);
  };

  document.addEventListener(
    'keydown',
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
      const key = { key: event.key, at_ms: event.timeStamp, repeat: event.repeat };
      const step = scanBurst(state, key, rulesNow());
      state = step.state;
      if (step.swallow) {
        event.preventDefault();
        event.stopImmediatePropagation();
      }
      deliver(step.scan);
      clearTimeout(pause);
      if (state.text !== '') waitForSilence();
    },
    { capture: true },
  );
}

const isField = (element: Element | null): element is HTMLInputElement | HTMLTextAreaElement =>
  element instanceof HTMLTextAreaElement ||
  (element instanceof HTMLInputElement && !['checkbox', 'radio', 'button', 'file'].includes(element.type));

/** What is typed while no field has the cursor cannot be a person's typing. */
const rulesNow = () => {
  const field = document.activeElement;
  if (!isField(field)) return slowBurst;
  return field.type === 'number' || ['decimal', 'numeric'].includes(field.inputMode) ? numberBurst : usualBurst;
};

/** Take the scanned characters out of the field they were typed into, where they stand right before the cursor. */
function takeOut(field: Element | null, text: string): void {
  if (!isField(field)) return;
  const cursor = field.selectionStart ?? field.value.length;
  const before = field.value.slice(0, cursor);
  if (!before.endsWith(text)) return;
  const kept = before.slice(0, -text.length) + field.value.slice(cursor);
  const prototype = field instanceof HTMLInputElement ? HTMLInputElement.prototype : HTMLTextAreaElement.prototype;
  // Through the prototype's own setter, so that React sees the change as one made by the person.
  Object.getOwnPropertyDescriptor(prototype, 'value')?.set?.call(field, kept);
  field.dispatchEvent(new Event('input', { bubbles: true }));
}
