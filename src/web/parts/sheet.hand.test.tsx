import { useState } from 'react';
import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { Held, onPage } from '../../../test/support/on-page.js';
import { Act } from './act.js';
import { ChooseOne } from './fields/choices.js';
import { Field } from './fields/field.js';
import { Sheet } from './sheet.js';

function Desk({ firm = false, closed = () => undefined }: { firm?: boolean; closed?: () => void }) {
  const [open, setOpen] = useState(false);
  const [text, setText] = useState('');
  const close = (): void => {
    closed();
    setOpen(false);
  };
  return (
    <>
      <Act onAct={() => setOpen(true)}>Correct…</Act>
      {open ? (
        <Sheet title="Correct" open onClose={close} firm={firm}>
          <Field label="Why" value={text} onChange={setText} lines />
          <Act onAct={close}>Leave</Act>
        </Sheet>
      ) : null}
    </>
  );
}
const opener = page.getByRole('button', { name: 'Correct…' });
const dialog = page.getByRole('dialog', { name: 'Correct' });

describe('a dialog', () => {
  it('holds the focus while it is open, and gives it back to the button that opened it', async () => {
    onPage(<Desk />);
    await opener.click();
    await expect.element(dialog).toBeVisible();
    for (let press = 0; press < 4; press += 1) {
      await userEvent.keyboard('{Tab}');
      expect(dialog.element().contains(document.activeElement)).toBe(true);
    }
    await userEvent.keyboard('{Escape}');
    await expect.element(dialog).not.toBeInTheDocument();
    await expect.element(opener).toHaveFocus();
  });

  it('that is firm is left by its own buttons alone, and nothing typed goes', async () => {
    const closed = vi.fn();
    onPage(<Desk firm closed={closed} />);
    await opener.click();
    const why = dialog.getByRole('textbox', { name: 'Why' });
    await why.fill('Wrong cat.');
    await userEvent.keyboard('{Escape}');
    (document.querySelector('.veil') as HTMLElement).click();
    await expect.element(why).toHaveValue('Wrong cat.');
    expect(closed).not.toHaveBeenCalled();
    await dialog.getByRole('button', { name: 'Leave' }).click();
    await expect.element(dialog).not.toBeInTheDocument();
    expect(closed).toHaveBeenCalledOnce();
  });

  it('fits on the smallest phone with its buttons within reach', async () => {
    await page.viewport(320, 568);
    onPage(<Desk />);
    await opener.click();
    const leave = dialog.getByRole('button', { name: 'Leave' });
    await expect.element(leave).toBeVisible();
    const { left, right } = leave.element().getBoundingClientRect();
    expect(left).toBeGreaterThanOrEqual(0);
    expect(right).toBeLessThanOrEqual(320);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    await page.viewport(390, 844);
  });
});

const days = ['first', 'second', 'third'] as const;

it('a long form scrolls in its dialog, and the dialog stays where it is', async () => {
  onPage(
    <Sheet title="A long form" open onClose={() => undefined}>
      {Array.from({ length: 30 }, (_, at) => at + 1).map((n) => (
        <Held key={n} begin={'first' as (typeof days)[number]}>
          {(value, change) => (
            <ChooseOne
              label={`Choice ${n}`}
              options={days.map((id) => ({ id, label: `${id} of ${n}` }))}
              value={value}
              onChange={change}
            />
          )}
        </Held>
      ))}
    </Sheet>,
  );
  await page.getByText('second of 30').click();
  const dialog = page.getByRole('dialog').element().closest('.dialog') as HTMLElement;
  const veil = dialog.closest('.veil') as HTMLElement;
  expect(dialog.scrollHeight).toBeGreaterThan(dialog.clientHeight);
  // Nothing hidden in the form makes what lies around the dialog longer than the screen.
  expect(veil.scrollHeight).toBe(veil.clientHeight);
  expect(dialog.getBoundingClientRect().top).toBeGreaterThanOrEqual(0);
});
