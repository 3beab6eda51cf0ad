// What a page looks like is part of whether a hand can use it.
import '../../src/web/style/tokens.css';
import '../../src/web/style/base.css';
import '../../src/web/style/parts.css';
import '../../src/web/style/forms.css';
import '../../src/web/phone/round.css';
import '../../src/web/phone/round-steps.css';
import { type ReactNode, useState } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, expect } from 'vitest';

let shown: { readonly root: Root; readonly place: HTMLElement } | null = null;

/** Puts a part on the page by itself; it is taken away after the test. */
export function onPage(part: ReactNode): void {
  const place = document.createElement('main');
  document.body.append(place);
  shown = { root: createRoot(place), place };
  shown.root.render(part);
}

/** The page takes presses again: right after an act every button of it rests for a moment (src/web/parts/rest.ts). */
export const atRest = (): Promise<void> =>
  expect.poll(() => document.querySelector('[data-held]')).toBeNull() as unknown as Promise<void>;

afterEach(() => {
  shown?.root.unmount();
  shown?.place.remove();
  shown = null;
});

interface HeldProps<T> {
  readonly begin: T;
  /** Hears every change, as the screen around the part would. */
  readonly heard?: (value: T) => void;
  readonly children: (value: T, change: (value: T) => void) => ReactNode;
}

/** Keeps the value of a part that leaves keeping it to the screen around it. */
export function Held<T>({ begin, heard, children }: HeldProps<T>) {
  const [value, setValue] = useState(begin);
  return children(value, (next) => {
    heard?.(next);
    setValue(next);
  });
}
