import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { ChooseOne, ChooseSome, Tick } from './choices.js';

const options = [
  { id: 'a', label: 'Ash' },
  { id: 'b', label: 'Birch', note: 'the usual one' },
  { id: 'c', label: 'Cedar', disabled: true },
] as const;

describe('one of a few', () => {
  const one = (heard = vi.fn()) => {
    onPage(
      <Held<string | null> begin={null} heard={heard}>
        {(value, change) => <ChooseOne label="Tree" options={options} value={value} onChange={change} big />}
      </Held>,
    );
    return heard;
  };

  it('is none beforehand, the last that is touched, and never what cannot be chosen', async () => {
    const heard = one();
    await expect.element(page.getByRole('radio', { name: 'Ash' })).not.toBeChecked();
    await page.getByText('Ash').click();
    await page.getByText('Birch').click();
    await page.getByText('Cedar').click({ force: true });
    expect(heard.mock.calls).toEqual([['a'], ['b']]);
    await expect.element(page.getByRole('radio', { name: /Birch/ })).toBeChecked();
  });

  it('is chosen by keys, and each row is large enough for a glove at 320 px', async () => {
    await page.viewport(320, 568);
    const heard = one();
    await page.getByText('Ash').click();
    await userEvent.keyboard('{ArrowDown}');
    await expect.poll(() => heard.mock.lastCall).toEqual(['b']);
    for (const row of document.querySelectorAll('label.choice')) {
      expect(row.getBoundingClientRect().height).toBeGreaterThanOrEqual(56);
    }
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    await page.viewport(390, 844);
  });
});

it('some of a few are told in the order of the list, whatever order they were touched in', async () => {
  const heard = vi.fn();
  onPage(
    <Held<readonly string[]> begin={[]} heard={heard}>
      {(value, change) => <ChooseSome label="Trees" options={options} value={value} onChange={change} />}
    </Held>,
  );
  await page.getByText('Birch').click();
  await page.getByText('Ash').click();
  expect(heard).toHaveBeenLastCalledWith(['a', 'b']);
  await page.getByText('Birch').click();
  expect(heard).toHaveBeenLastCalledWith(['a']);
});

it('a tick counts every touch of it, on its words as on its box', async () => {
  const heard = vi.fn();
  onPage(
    <Held begin={false} heard={heard}>
      {(value, change) => <Tick label="Gloves off" note="into the bin" value={value} onChange={change} />}
    </Held>,
  );
  await page.getByText('into the bin').click();
  await page.getByText('Gloves off').click();
  await page.getByText('Gloves off').click();
  expect(heard.mock.calls.flat()).toEqual([true, false, true]);
});
