import { useState } from 'react';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { onPage } from '../../../test/support/on-page.js';
import { catchScans } from './catcher.js';
import { useScan } from './use-scan.js';

const chip = '900000000204276';
beforeAll(catchScans);

function Page({ heard }: { heard: (raw: string) => void }) {
  const [text, setText] = useState('');
  useScan(heard);
  return (
    <label>
      Note <input value={text} onChange={(event) => setText(event.target.value)} />
    </label>
  );
}

/**
 * A reader that types like a keyboard: all keys within one turn of the page, so that nothing that the machine does beside
 * it can come between two of them. The journeys scan with the keys of the browser itself.
 */
function scan(code: string): void {
  for (const key of [...code, 'Enter']) {
    const struck = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
    const taken = document.activeElement?.dispatchEvent(struck) === false;
    if (!taken && key.length === 1) document.execCommand('insertText', false, key);
  }
}

describe('a reader that types', () => {
  it('is heard wherever the cursor is, and what it typed into a field is taken out again', async () => {
    const heard = vi.fn();
    onPage(<Page heard={heard} />);
    const field = page.getByRole('textbox');
    await field.fill('Shy. ');
    await field.click();
    await userEvent.keyboard('{End}');
    scan(chip);
    await expect.poll(() => heard.mock.calls).toEqual([[chip]]);
    await expect.element(field).toHaveValue('Shy. ');
  });

  it('is told from a person who types', async () => {
    const heard = vi.fn();
    onPage(<Page heard={heard} />);
    const field = page.getByRole('textbox');
    await field.click();
    for (const key of '4276') {
      await userEvent.keyboard(key);
      await new Promise((done) => setTimeout(done, 120));
    }
    await userEvent.keyboard('{Enter}');
    await expect.element(field).toHaveValue('4276');
    expect(heard).not.toHaveBeenCalled();
  });
});
