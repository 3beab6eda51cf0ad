import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { FindOne, Pick } from './pick.js';

const people = [
  { id: 'ines', label: 'Ines' },
  { id: 'sol', label: 'Sol', note: 'supervisor' },
  { id: 'vera', label: 'Vera' },
] as const;

describe('one of a list that opens', () => {
  it('is what was touched, and the focus is back on it', async () => {
    const heard = vi.fn();
    onPage(
      <Held<string | null> begin={null} heard={heard}>
        {(value, change) => <Pick label="Treated" options={people} value={value} onChange={change} />}
      </Held>,
    );
    const button = page.getByRole('button', { name: /Treated/ });
    await button.click();
    await page.getByRole('option', { name: /Sol/ }).click();
    expect(heard.mock.calls).toEqual([['sol']]);
    await expect.element(page.getByRole('listbox')).not.toBeInTheDocument();
    await expect.element(button).toHaveTextContent('Sol');
    await expect.element(button).toHaveFocus();
  });

  it('is left by Escape with what stood there before', async () => {
    const heard = vi.fn();
    onPage(<Pick label="Treated" options={people} value="vera" onChange={heard} />);
    const button = page.getByRole('button', { name: /Treated/ });
    await button.click();
    await expect.element(page.getByRole('listbox')).toBeVisible();
    await userEvent.keyboard('{ArrowUp}{Escape}');
    await expect.element(page.getByRole('listbox')).not.toBeInTheDocument();
    expect(heard).not.toHaveBeenCalled();
    await expect.element(button).toHaveTextContent('Vera');
  });
});

it('one of a long list is found by typing, and half a name chooses nobody', async () => {
  const heard = vi.fn();
  onPage(
    <Held<string | null> begin={null} heard={heard}>
      {(value, change) => <FindOne label="Person" options={people} value={value} onChange={change} />}
    </Held>,
  );
  const field = page.getByRole('combobox');
  await field.fill('ve');
  await expect.element(page.getByRole('option', { name: 'Vera' })).toBeVisible();
  expect(page.getByRole('option').elements()).toHaveLength(1);
  expect(heard).not.toHaveBeenCalled();
  await userEvent.keyboard('{ArrowDown}');
  // The list has taken the key, however slow it is: Enter is for what it shows as chosen.
  await expect.poll(() => field.element().getAttribute('aria-activedescendant')).not.toBeNull();
  await userEvent.keyboard('{Enter}');
  await expect.poll(() => heard.mock.calls).toEqual([['vera']]);
});
