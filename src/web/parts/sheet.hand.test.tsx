import { expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { Held, onPage } from '../../../test/support/on-page.js';
import { ChooseOne } from './fields/choices.js';
import { Sheet } from './sheet.js';

const days = ['first', 'second', 'third'] as const;

it('a long form scrolls in its dialog, and the dialog stays where it is', async () => {
  onPage(
    <Sheet title="A long form" open onClose={() => undefined}>
      {Array.from({ length: 30 }, (_, at) => (
        <Held key={`${at + 1}`} begin={'first' as (typeof days)[number]}>
          {(value, change) => (
            <ChooseOne
              label={`Choice ${at + 1}`}
              options={days.map((id) => ({ id, label: `${id} of ${at + 1}` }))}
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
