import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { Held, onPage } from '../../../test/support/on-page.js';
import { OrderList } from './order-list.js';

const names: Readonly<Record<string, string>> = { a: 'Ash', b: 'Birch', c: 'Cedar' };
const list = (heard = vi.fn()) => {
  onPage(
    <Held<readonly string[]> begin={['a', 'b', 'c']} heard={heard}>
      {(order, change) => (
        <OrderList
          label="Order in the ward"
          order={order}
          nameOf={(id) => names[id] ?? id}
          noteOf={() => ''}
          litterOf={(id) => id}
          onOrder={change}
        />
      )}
    </Held>,
  );
  return heard;
};
const row = (name: string) => page.getByRole('row', { name });
const focused = () => document.activeElement?.getAttribute('aria-label');

describe('the order of a section as a list', () => {
  it('moves an animal by its arrows, and leaves the focus in its row at the end', async () => {
    const heard = list();
    await page.getByRole('button', { name: 'Birch earlier' }).click();
    expect(heard).toHaveBeenLastCalledWith(['b', 'a', 'c']);
    await expect.poll(focused).toBe('Birch');
    await expect.element(page.getByRole('button', { name: 'Birch earlier' })).toBeDisabled();
    await page.getByRole('button', { name: 'Ash later' }).click();
    expect(heard).toHaveBeenLastCalledWith(['b', 'c', 'a']);
    await expect.poll(focused).toBe('Ash');
  });

  it('is dragged with keys alone: grip, up, down where it is to stand', async () => {
    const heard = list();
    await expect.element(row('Cedar')).toBeVisible();
    await userEvent.keyboard('{Tab}{End}{ArrowRight}');
    await expect.poll(focused).toBe('Move Cedar');
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => document.activeElement?.getAttribute('aria-label')).toMatch(/Insert/);
    await userEvent.keyboard('{ArrowUp}{ArrowUp}{Enter}');
    await expect.poll(() => heard.mock.calls).toEqual([[['a', 'c', 'b']]]);
  });
});
