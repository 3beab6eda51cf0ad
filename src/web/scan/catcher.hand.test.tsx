import { useState } from 'react';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { cdp, page, userEvent } from 'vitest/browser';
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

/** A reader that types like a keyboard, keys 8 ms apart however busy the machine is. */
async function scan(code: string): Promise<void> {
  const browser = cdp() as unknown as { send: (method: string, params: object) => Promise<unknown> };
  const begun = Date.now() / 1000;
  const keys = [...code, 'Enter'];
  // All are on their way before the first is answered: on a busy machine a key that waits for the one before it is a pause.
  await Promise.all(
    keys.flatMap((key, index) => {
      const timestamp = begun + index * 0.008;
      const text = key === 'Enter' ? '\r' : key;
      return [
        browser.send('Input.dispatchKeyEvent', { type: 'keyDown', key, text, timestamp }),
        browser.send('Input.dispatchKeyEvent', { type: 'keyUp', key, timestamp }),
      ];
    }),
  );
}

describe('a reader that types', () => {
  it('is heard wherever the cursor is, and what it typed into a field is taken out again', async () => {
    const heard = vi.fn();
    onPage(<Page heard={heard} />);
    const field = page.getByRole('textbox');
    await field.fill('Shy. ');
    await field.click();
    await userEvent.keyboard('{End}');
    await scan(chip);
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
