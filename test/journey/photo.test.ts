import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { beginRound } from './pages/round-begin.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';

const shelter = openShelter('photo', start);
let { phone, desk, folder }: Opened = {} as Opened;
let file = '';

beforeAll(async () => {
  ({ phone, desk, folder } = shelter());
  // Lies on its side in the file, and says where it was taken and with what.
  const camera = await sharp({ create: { width: 2400, height: 1800, channels: 3, background: '#7a5c3a' } })
    .withExif({ IFD0: { Make: 'Invented' }, IFD3: { GPSLatitude: '51/1 30/1 0/1', GPSLatitudeRef: 'N' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
  file = join(folder, 'from-camera.jpg');
  writeFileSync(file, camera);
});

/** Width and height of a picture on the page once it is drawn. */
const sidesOf =
  (page: Page, name: string, which: 'first' | 'last' = 'first') =>
  async (): Promise<number[]> => {
    const picture = page.getByRole('img', { name, exact: true })[which]();
    if ((await picture.count()) === 0 || (await picture.evaluate((one) => one.tagName)) !== 'IMG') return [];
    return picture.evaluate((one: HTMLImageElement) => [one.naturalWidth, one.naturalHeight]);
  };

describe.sequential('a photo', () => {
  it('is taken without the network, seen at once, and reaches the desk without a word on its place (Verifies: LOG-R95)', async () => {
    const round = await beginRound(phone, ['Adult ward']);
    await phone.open('/animals');
    await phone.page.getByRole('link', { name: 'Lapwing' }).first().click();
    await phone.page.context().setOffline(true);
    await phone.press('Change description');
    const sheet = phone.page.getByRole('dialog');
    await sheet.getByLabel('Photo').setInputFiles(file);
    await expect.poll(sidesOf(phone.page, 'Photo')).toEqual([240, 320]);
    await phone.lookAt('the sheet with a photo');
    await sheet.getByRole('button', { name: 'Change description' }).click();
    await sheet.waitFor({ state: 'detached' });
    await expect.poll(sidesOf(phone.page, 'Photo of Lapwing')).toEqual([240, 320]);
    await phone.page.reload();
    await expect.poll(sidesOf(phone.page, 'Photo of Lapwing')).toEqual([240, 320]);
    await phone.page.context().setOffline(false);
    await phone.says('all sent');

    await desk.workAs('Ada Quill');
    await desk.open(new URL(phone.page.url()).pathname);
    await expect.poll(sidesOf(desk.page, 'Photo of Lapwing')).toEqual([240, 320]);

    // At the cage it stands in full where it is compared.
    await phone.open(`/round/${round}/section/ward`);
    await phone.goIn(['gloves']);
    await phone.turnTo('Lapwing');
    await phone.press('Compare marks');
    await phone.page.locator('img.photo-large').waitFor();
    await expect.poll(sidesOf(phone.page, 'Photo of Lapwing', 'last')).toEqual([1200, 1600]);
  });

  it('that this phone does not have and cannot fetch is not compared, and that is said (Verifies: LOG-R97)', async () => {
    await phone.page.evaluate(
      () =>
        new Promise<void>((done, failed) => {
          const open = indexedDB.open('roundhand');
          open.onerror = () => failed(open.error);
          open.onsuccess = () => {
            const cleared = open.result.transaction('pictures', 'readwrite').objectStore('pictures').clear();
            cleared.onerror = () => failed(cleared.error);
            cleared.onsuccess = () => {
              open.result.close();
              done();
            };
          };
        }),
    );
    await phone.page.context().setOffline(true);
    await phone.page.reload();
    await phone.press('Compare marks');
    await phone.says('The photo on record is not on this device. Compare the other marks.');
    expect(await phone.page.locator('img.photo-large').count()).toBe(0);
    await phone.lookAt('marks without the photo');
    await phone.page.context().setOffline(false);
    // Heard from the server again, it is fetched and stands there to be compared.
    await expect.poll(sidesOf(phone.page, 'Photo of Lapwing', 'last')).toEqual([1200, 1600]);
  });
});
