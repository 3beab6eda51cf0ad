import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../test/support/on-page.js';
import { Act } from './act.js';

describe('a button', () => {
  it('takes a double tap for one act, also by what stands there after the first (Verifies: ROUND-R17)', async () => {
    const [first, second] = [vi.fn(), vi.fn()];
    onPage(
      <>
        <Act onAct={first}>Given as drawn</Act>
        <Act onAct={second}>Next animal</Act>
      </>,
    );
    const button = (name: string) => page.getByRole('button', { name }).element() as HTMLButtonElement;
    await expect.element(page.getByRole('button', { name: 'Given as drawn' })).toBeVisible();
    button('Given as drawn').click();
    button('Given as drawn').click();
    button('Next animal').click();
    expect([first.mock.calls.length, second.mock.calls.length]).toEqual([1, 0]);
    // A moment later it is a new act.
    await expect.poll(() => button('Next animal').dataset.held).toBeUndefined();
    button('Next animal').click();
    expect(second).toHaveBeenCalledOnce();
  });

  it('stays busy until what it began is over, and can be pressed again after a fault', async () => {
    let fail: (error: Error) => void = () => undefined;
    const save = vi.fn(
      () =>
        new Promise<void>((_done, failed) => {
          fail = failed;
        }),
    );
    const unheard = vi.fn((event: PromiseRejectionEvent) => event.preventDefault());
    window.addEventListener('unhandledrejection', unheard);
    onPage(<Act onAct={save}>Record</Act>);
    const record = page.getByRole('button', { name: 'Record' });
    await record.click();
    await expect.element(record).toHaveAttribute('data-busy');
    (record.element() as HTMLElement).click();
    expect(save).toHaveBeenCalledOnce();
    fail(new Error('the disk is full'));
    await expect.element(record).not.toHaveAttribute('data-busy');
    await expect.element(record).not.toHaveAttribute('data-held');
    await record.click();
    expect(save).toHaveBeenCalledTimes(2);
    window.removeEventListener('unhandledrejection', unheard);
  });

  it('says above itself, and to a reader of screens, why it cannot be pressed', async () => {
    onPage(
      <Act onAct={() => undefined} why="Weigh first.">
        Given as drawn
      </Act>,
    );
    const button = page.getByRole('button', { name: 'Given as drawn' });
    await expect.element(button).toBeDisabled();
    await expect.element(button).toHaveAccessibleDescription(/Weigh first\./);
    const [why, below] = [page.getByText('Weigh first.'), button].map((one) => one.element().getBoundingClientRect());
    expect(why?.bottom).toBeLessThanOrEqual(below?.top ?? 0);
  });

  it('the one heavy thing of a screen is large enough for a glove', async () => {
    onPage(
      <Act main size="big" onAct={() => undefined}>
        Given as drawn
      </Act>,
    );
    const button = page.getByRole('button', { name: 'Given as drawn' });
    await expect.element(button).toBeVisible();
    expect(button.element().getBoundingClientRect().height).toBeGreaterThanOrEqual(56);
  });
});
