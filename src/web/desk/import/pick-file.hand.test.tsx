import { expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../../test/support/on-page.js';
import { say } from '../../../words/say.js';
import { FileButton } from '../documents/protocol/file-button.js';
import { PickFile } from './pick-file.js';

const file = (text: string) => new File([text], 'march.csv', { type: 'text/csv' });

it('a file is handed on once for each time it is chosen, the same one again too', async () => {
  const heard = vi.fn();
  onPage(<PickFile onFile={heard} />);
  const field = page.getByLabelText(say('desk.import.choose')).last();
  await field.upload(file('a;b'));
  expect((field.element() as HTMLInputElement).value).toBe('');
  await field.upload(file('a;b'));
  expect(heard.mock.calls.map(([one]) => (one as File).name)).toEqual(['march.csv', 'march.csv']);
});

it('a document is read as text, and can be chosen again after it was changed', async () => {
  const heard = vi.fn();
  onPage(<FileButton label="Read back" onText={heard} />);
  const field = document.querySelector.bind(document);
  await expect.element(page.getByRole('button', { name: 'Read back' })).toBeVisible();
  const input = field('input[type=file]') as HTMLInputElement;
  for (const text of ['{"a":1}', '{"a":2}']) {
    const files = new DataTransfer();
    files.items.add(file(text));
    input.files = files.files;
    input.dispatchEvent(new Event('change', { bubbles: true }));
    await expect.poll(() => heard.mock.lastCall).toEqual([text]);
    expect(input.value).toBe('');
  }
  expect(heard).toHaveBeenCalledTimes(2);
});
