import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { Counter } from './counter.js';

const less = page.getByRole('button', { name: 'Less: Drops' });
const more = page.getByRole('button', { name: 'More: Drops' });

describe('a number that is tapped', () => {
  it('counts every tap of a fast hand, and stops at its ends', async () => {
    const heard = vi.fn();
    onPage(
      <Held begin={0} heard={heard}>
        {(value, change) => <Counter label="Drops" value={value} least={0} most={3} onChange={change} />}
      </Held>,
    );
    await expect.element(page.getByText('0', { exact: true })).toBeVisible();
    for (let tap = 0; tap < 3; tap += 1) await more.click();
    expect(heard.mock.calls.flat()).toEqual([1, 2, 3]);
    await expect.element(more).toBeDisabled();
    await less.click();
    expect(heard).toHaveBeenLastCalledWith(2);
  });

  it('is told to a reader of screens as it changes, and works by keys', async () => {
    onPage(
      <Held begin={0.5}>
        {(value, change) => (
          <Counter
            label="Drops"
            value={value}
            least={0}
            most={3}
            step={0.5}
            write={(n) => `${n} mL`}
            onChange={change}
          />
        )}
      </Held>,
    );
    await expect.element(page.getByText('0.5 mL')).toBeVisible();
    expect(page.getByText('0.5 mL').element().closest('[aria-live=polite]')).not.toBeNull();
    (more.element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByText('1 mL')).toBeVisible();
  });

  it('has keys large enough for a glove', async () => {
    onPage(<Counter label="Drops" value={1} least={0} most={3} onChange={() => undefined} />);
    await expect.element(page.getByText('1', { exact: true })).toBeVisible();
    for (const key of [less, more]) {
      const { width, height } = (key.element() as HTMLElement).getBoundingClientRect();
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(48);
    }
  });
});
