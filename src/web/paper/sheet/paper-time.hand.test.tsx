import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../../test/support/on-page.js';
import { say } from '../../../words/say.js';
import { PaperTimeField } from './paper-time.js';

const time = page.getByRole('textbox', { name: 'Started', exact: true });
const none = page.getByText(say('ribbon.key-in.no-time'), { exact: true });

function sheet() {
  const heard = vi.fn();
  onPage(<PaperTimeField label="Started" start="2026-03-01T13:30:00.000Z" onChange={heard} />);
  return () => heard.mock.lastCall?.[0] as unknown;
}

describe('a time on paper', () => {
  it('is not there beforehand, and is read as hands write it', async () => {
    const last = sheet();
    await expect.element(time).toHaveValue('');
    expect(last()).toBeUndefined();
    for (const text of ['9.05', '0905', '9:05']) {
      await time.fill(text);
      expect(last()).toEqual({ is: 'at', at: '2026-03-01T09:05:00.000Z' });
    }
    await time.fill('9:5');
    expect(last()).toEqual({ is: 'open' });
    await expect.element(time).toHaveAttribute('aria-invalid', 'true');
  });

  it('that is not on the sheet is said so, and what was typed before comes back with the tick', async () => {
    const last = sheet();
    await time.fill('9:05');
    await none.click();
    expect(last()).toEqual({ is: 'not-written' });
    await expect.element(time).toBeDisabled();
    await page.getByLabelText(say('ribbon.key-in.day', { what: 'Started' })).fill('2026-02-28');
    expect(last()).toEqual({ is: 'not-written' });
    await none.click();
    expect(last()).toEqual({ is: 'at', at: '2026-02-28T09:05:00.000Z' });
  });
});
