import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { Desk } from './pages/desk.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';

const shelter = openShelter('kept-program', start);
let { served, phone, desk }: Opened = {} as Opened;

beforeAll(() => {
  ({ served, phone, desk } = shelter());
});

describe.sequential('a screen that was never opened', () => {
  it('opens without the network where the browser keeps no copy of the program', async () => {
    await phone.takeDemo();
    const browser = phone.page.context().browser();
    if (browser === null) throw new Error('the phone has no browser');
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    try {
      // As on a plain address of the shelter's network.
      await context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'serviceWorker'));
      const plain = new Desk(await context.newPage(), served.url());
      // The last of the parts that are fetched while the page rests.
      const fetched = plain.page.waitForResponse(/\/assets\/device-[^/]+\.js$/);
      await plain.workAs('Ada Quill');
      await fetched;
      await plain.page.waitForLoadState('networkidle');
      await context.setOffline(true);
      await plain.page.getByRole('link', { name: 'Stock', exact: true }).first().click();
      await plain.says('Add to the shelf');
      await plain.page.getByRole('link', { name: 'Documents', exact: true }).first().click();
      await plain.page.getByRole('heading', { name: 'Documents', level: 1 }).waitFor();
    } finally {
      await context.close();
    }
  });

  it('says so when it cannot be fetched, and opens once it can', async () => {
    await desk.page.context().route(/\/assets\/stock-[^/]+\.js$/, (route) => route.abort());
    await desk.workAs('Ada Quill');
    await desk.page.getByRole('link', { name: 'Stock', exact: true }).first().click();
    await desk.says(/This page is not on this device yet/);
    await desk.lookAt('a page that was not fetched');
    await desk.page.context().unroute(/\/assets\/stock-[^/]+\.js$/);
    await desk.press('Try again');
    await desk.says('Add to the shelf');
    expect(await desk.page.getByText(/This page is not on this device yet/).count()).toBe(0);
  });
});
