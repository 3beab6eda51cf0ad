import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { Held, onPage } from '../../../../test/support/on-page.js';
import type { Photo } from '../../../core/animal/photo.js';
import { say } from '../../../words/say.js';
import { store } from '../../store/here.js';
import { PhotoField } from './photo-field.js';

const field = page.getByLabelText(say('desk.animal.photo'), { exact: true }).first();

/** A picture as a camera hands it over. */
async function picture(): Promise<File> {
  const canvas = document.createElement('canvas');
  canvas.width = 64;
  canvas.height = 48;
  canvas.getContext('2d')?.fillRect(0, 0, 32, 48);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg'));
  return new File([blob ?? ''], 'cat.jpg', { type: 'image/jpeg' });
}

async function photo() {
  const heard = vi.fn();
  await store.db.open();
  onPage(
    <Held<Photo | null> begin={null} heard={heard}>
      {(value, change) => <PhotoField value={value} onChange={change} />}
    </Held>,
  );
  return heard;
}

describe('a photo', () => {
  it('is kept on the device before its name is given on, and the same one can be chosen again', async () => {
    const heard = await photo();
    const file = await picture();
    await field.upload(file);
    await expect.poll(() => heard.mock.calls.length).toBe(1);
    const first = heard.mock.lastCall?.[0] as Photo;
    expect(await store.db.pictures.get(first.full)).toBeDefined();
    // Whatever stands in the field is no change any more when it is chosen again.
    expect((field.element() as HTMLInputElement).value).toBe('');
    await page.getByRole('button', { name: say('desk.animal.photo-away') }).click();
    expect(heard.mock.lastCall).toEqual([null]);
    await field.upload(file);
    await expect.poll(() => (heard.mock.lastCall?.[0] as Photo | null)?.full).toBe(first.full);
  });

  it('that is no picture says what to do, stands for none, and can be chosen again', async () => {
    const heard = await photo();
    await field.upload(new File(['not a picture'], 'cat.jpg', { type: 'image/jpeg' }));
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(field).toBeEnabled();
    expect((field.element() as HTMLInputElement).value).toBe('');
    expect(heard).not.toHaveBeenCalled();
  });
});
