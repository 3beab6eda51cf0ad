import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, type BrowserContextOptions, chromium } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { slowedBy } from '../support/patience.js';
import { type Clock, holdClock } from './clock.js';
import { Desk } from './pages/desk.js';
import { Phone } from './pages/phone.js';
import { type Served, serve } from './served.js';

/** A shelter that stands for the length of one file of tests, with a phone and a desk computer in hands. */
export interface Opened {
  readonly served: Served;
  /** The folder of its server; files of the test may lie there, too. */
  readonly folder: string;
  readonly clock: Clock;
  readonly phone: Phone;
  readonly desk: Desk;
}

interface How {
  /** The server's own file in this folder, which decides what shelter it offers. */
  readonly script?: string;
  readonly phone?: BrowserContextOptions;
  readonly desk?: BrowserContextOptions;
}

/**
 * Opens the shelter before the tests of the file it is called in and closes it after them. A test that fails leaves a
 * picture of every screen among the temporary files, under the `name`.
 */
export function openShelter(name: string, start: string, how: How = {}): () => Opened {
  let opened: Opened | null = null;
  /** What is to be closed, each as soon as it is open: the next one may fail to open. */
  const closing: (() => unknown)[] = [];
  const shelter = (): Opened => {
    if (opened === null) throw new Error('The shelter is not open yet.');
    return opened;
  };

  beforeAll(async () => {
    const folder = mkdtempSync(join(tmpdir(), `roundhand-${name}-`));
    closing.push(() => rmSync(folder, { recursive: true, force: true }));
    const served = await serve(folder, start, how.script);
    closing.push(served.stop);
    const browser = await chromium.launch({
      executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium',
      args: ['--no-sandbox', '--disable-gpu'],
    });
    closing.push(() => browser.close());
    const onPhone = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, ...how.phone });
    const atDesk = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...how.desk });
    for (const context of [onPhone, atDesk]) slowDown(context);
    const clock = await holdClock(start, served, [onPhone, atDesk]);
    const phone = new Phone(await onPhone.newPage(), served.url());
    const desk = new Desk(await atDesk.newPage(), served.url());
    opened = { served, folder, clock, phone, desk };
  });

  afterEach(async ({ task }) => {
    if (task.result?.state !== 'fail') return;
    // What stood on the screen is the first thing one wants to know.
    const pages = [shelter().phone, shelter().desk].flatMap((device) => device.page.context().pages());
    for (const [index, page] of pages.entries())
      await page.screenshot({ path: join(tmpdir(), `roundhand-${name}-failed-${index}.png`), fullPage: true });
  });

  afterAll(async () => {
    for (const close of closing.reverse()) await close();
  });

  return shelter;
}

/** Every page of the context runs on a machine so many times slower, from its first line on. */
function slowDown(context: BrowserContext): void {
  if (slowedBy === 1) return;
  context.on('page', async (page) => {
    const devtools = await context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: slowedBy });
  });
}
