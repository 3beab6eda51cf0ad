import type { BrowserContext } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { countTones } from './pages/drawing.js';
import { Phone } from './pages/phone.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
const chips = { Serin: '900000000204289', Brambling: '900000000204276' };
const fast_ms = 43 * 60_000;
const pictures = process.env.ROUNDHAND_LOOK ?? null;

const shelter = openShelter('running-tests', start);
let { served, clock, phone, desk }: Opened = {} as Opened;
/** The holder's own phone, whose clock is right. */
let partner: Phone;
let round = '';

/** In the page: this device's clock is so far ahead of everybody's; it still moves with the hand of the journey. */
const runFast = (ms: number): void => {
  const right = window.roundhandClock;
  if (right !== undefined) window.roundhandClock = () => right() + ms;
};

/** In the page: counts how often it shakes. */
const countShakes = (): void => {
  window.roundhandShakes = 0;
  navigator.vibrate = () => {
    window.roundhandShakes = (window.roundhandShakes ?? 0) + 1;
    return true;
  };
};
declare global {
  interface Window {
    roundhandShakes?: number;
  }
}

const heard = (on: Phone) =>
  on.page.evaluate(() => ({ tones: window.roundhandTones ?? 0, shakes: window.roundhandShakes ?? 0 }));

/** Minutes and seconds on the strip of running tests, in seconds; null when none is there. */
async function onStrip(on: Phone): Promise<number | null> {
  const text = await on.page.locator('.round-threads').first().textContent();
  const found = /(\d+):(\d\d)/.exec(text ?? '');
  return found === null ? null : Number(found[1]) * 60 + Number(found[2]);
}

/** How much of the page the strip takes, sound line and all. */
const stripHeight = async (on: Phone): Promise<number> =>
  (await on.page.locator('.round-threads').boundingBox())?.height ?? 0;

async function look(on: Phone, name: string): Promise<void> {
  if (pictures === null) return;
  const size = on.page.viewportSize();
  await on.page.screenshot({ path: `${pictures}/${name}-390.png` });
  await on.page.setViewportSize({ width: 320, height: 568 });
  await on.page.screenshot({ path: `${pictures}/${name}-320.png` });
  if (size !== null) await on.page.setViewportSize(size);
}

async function startTest(animal: string, chip: string): Promise<void> {
  await phone.open(`/round/${round}`);
  await phone.press('Go on in Kitten room B');
  await phone.turnTo(animal);
  await phone.scan(chip);
  await phone.press('✓ Drawn, usable');
  await phone.choose('The bottle says');
  await phone.press('Right box. Next');
  await phone.runKit();
  // It runs beside the first one: only then is it on the record.
  await phone.page.locator('.thread-more').waitFor();
}

/** In the page: whether the alarm stands in sight on the open sheet, and which buttons in sight it lies over. */
const coveredOnSheet = (): string[] => {
  const band = [...document.querySelectorAll('.dialog .alarm')].at(-1);
  if (band === undefined) return ['no alarm on the sheet'];
  const inSight = (part: Element): boolean => {
    const { left, right, top, bottom } = part.getBoundingClientRect();
    const on = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    return top >= 0 && bottom <= window.innerHeight && on !== null && (part.contains(on) || on.contains(part));
  };
  const faults = inSight(band) ? [] : ['the alarm is out of sight'];
  const below = band.getBoundingClientRect().bottom;
  const least = document.querySelector('.dialog .act-pair');
  if (least === null || least.getBoundingClientRect().top < below) faults.push('the alarm is over the buttons');
  for (const button of least?.querySelectorAll('button') ?? []) {
    if (!inSight(button)) faults.push(`${button.textContent} is out of sight`);
  }
  return faults;
};

const everywhere = ['/', '/animals', '/due', '/rounds', '/flags', '/stock', '/weigh', '/device'];

beforeAll(async () => {
  ({ served, clock, phone, desk } = shelter());
  await phone.takeDemo();
  await phone.workAs('Tove Margin');
  // The desk's machine plays the holder's phone: another device, with its own store and a clock that is right.
  partner = new Phone(desk.page, served.url());
  await partner.page.setViewportSize({ width: 390, height: 844 });
  await partner.open('/');
  await partner.workAs('Jonas Blotter');
  // From here on the treater's phone is 43 minutes fast.
  const context: BrowserContext = phone.page.context();
  await context.addInitScript(runFast, fast_ms);
  for (const one of [phone, partner]) {
    await one.page.context().addInitScript(countTones);
    await one.page.context().addInitScript(countShakes);
  }
  await phone.open('/rounds/prepare');
  await phone.says(/The clock of this device is 43 minutes fast/);
  for (const section of ['Kitten room A', 'Adult ward', 'Foster homes', 'Intake', 'Quarantine', 'Isolation']) {
    await phone.choose(section);
  }
  await phone.pick('Holds', 'Jonas Blotter');
  await phone.press('Begin the round');
  await phone.says('Sections, in this order');
  round = /\/round\/([^/]+)/.exec(phone.page.url())?.[1] ?? '';
  await phone.press('Take tests out of the cold');
  await phone.press(/^Take \d+ out now/);
  await clock.pass(31);
  await phone.page.reload();
  await phone.press('To the round');
  await phone.press('Go to Kitten room B');
  await phone.goIn(['gloves']);
});

/** A test whose clock runs is somebody's business wherever that person is and whatever phone is in the hand. */
describe.sequential('a running test', () => {
  it('drawn blood is named on the list, and is no longer covered by a word for all that is left (Verifies: ROUND-R102, ROUND-R105)', async () => {
    await phone.open(`/round/${round}`);
    await phone.press('Go on in Kitten room B');
    await phone.turnTo('Serin');
    await phone.scan(chips.Serin);
    await phone.press('✓ Drawn, usable');
    await phone.says('The bottle says');
    await phone.open(`/round/${round}`);
    await phone.press('Go on in Kitten room B');
    await phone.says('blood drawn: start the test');
    await phone.says('Next: Serin');
    await phone.press('Leave this section');
    await phone.says(/Blood is drawn from Serin, and its test is not started/);
    for (const item of ['Gloves off', 'Hands washed', 'Table, scale and cart']) await phone.choose(item);
    await phone.choose(/We leave .* open/);
    await phone.says('Start the tests of Serin first, or say that the blood is thrown away.');
    await phone.lookAt('leaving with drawn blood');
    await phone.press('To Serin');
    await phone.says('The bottle says');
  });

  it('says before the clock starts that the page has to stay open, and by when a kitchen timer rings', async () => {
    await phone.choose('The bottle says');
    await phone.press('Right box. Next');
    await phone.toTheClock();
    // By the phone's own clock, as everything on it: 14:01 in truth, 14:44 there, and the kit opens after 8 minutes.
    await phone.says(/Keep this page open and the screen on.*kitchen timer to 8 minutes as well \(it rings at 14:52\)/);
    await phone.press('Pressed: start the clock');
    await phone.page.locator('.round-threads').waitFor();
  });

  it('stands on every page, for both people, on both devices (Verifies: TEST-R14)', async () => {
    for (const one of [phone, partner]) {
      for (const path of everywhere) {
        await one.open(path);
        await one.says('Serin');
        await one.page.getByRole('region', { name: 'Running tests' }).waitFor();
        expect(await onStrip(one), path).toBe(8 * 60);
      }
    }
    await phone.open('/animals');
    await phone.page.locator('.round-threads').waitFor();
    // Any tap lets the page sound, and the line that says it would be silent goes.
    await phone.page.mouse.click(1, 400);
    await expect.poll(() => stripHeight(phone)).toBeLessThanOrEqual(58);
    await phone.lookAt('a running test on the animals page');
    await look(phone, 'animals-one-test');
  });

  it('shows the partner the time by the corrected clock, and never more than the test is long (Verifies: TEST-R12, TEST-R13)', async () => {
    await partner.open('/animals');
    expect(await onStrip(partner)).toBe(8 * 60);
    await clock.pass(3);
    await expect.poll(() => onStrip(partner)).toBe(5 * 60);
    await expect.poll(() => onStrip(phone)).toBe(5 * 60);
    await look(partner, 'partner-animals');
    await partner.page.locator('.thread-row').click();
    await partner.says(/^Wait 5:00/);
    // By the clock on this phone's own wall: 14:01 to 14:09.
    await partner.says(/Started 14:01:00. Read from 14:09:00/);
    await look(partner, 'partner-reading');
  });

  it('is nobody’s alarm who is not of the team', async () => {
    await partner.open('/people');
    await partner.press(/^Jonas Blotter/);
    await partner.page.locator('.dialog').getByText('Ada Quill').first().click();
    await partner.press('Record under these names');
    await expect.poll(() => partner.page.locator('.dialog').count()).toBe(0);
    await partner.says('Ada Quill');
    await expect.poll(() => partner.page.locator('.round-threads').count()).toBe(0);
    await partner.press(/^Ada Quill/);
    await partner.page.locator('.dialog').getByText('Jonas Blotter').first().click();
    await partner.press('Record under these names');
    await partner.page.locator('.round-threads').waitFor();
  });

  it('keeps to one row when several run, and opens them with a press', async () => {
    await startTest('Brambling', chips.Brambling);
    await phone.open('/animals');
    await phone.page.locator('.round-threads').waitFor();
    // Any tap lets the page sound, and the line that says it would be silent goes.
    await phone.page.mouse.click(1, 400);
    await expect.poll(() => stripHeight(phone)).toBeLessThanOrEqual(58);
    await look(phone, 'animals-two-tests');
    await phone.page.getByRole('button', { name: 'Show 1 more running test' }).click();
    await expect.poll(() => phone.page.locator('.thread-row').count()).toBe(2);
    await phone.lookAt('all running tests');
    await look(phone, 'animals-all-tests');
    await phone.page.getByRole('button', { name: 'Show only the next test' }).click();
  });

  it('rings on the animals page of both phones when its window opens (Verifies: TEST-R14)', async () => {
    for (const one of [phone, partner]) {
      await one.open('/animals');
      await one.page.locator('.round-threads').waitFor();
      // Any tap lets the page sound.
      await one.page.mouse.click(1, 400);
      await one.settles('Sound is off: the alarm would be silent.');
      expect(await heard(one)).toEqual({ tones: 0, shakes: 0 });
    }
    await clock.pass(5, 2);
    for (const one of [phone, partner]) {
      await one.says('Read Serin’s test now');
      await expect.poll(async () => (await heard(one)).tones).toBeGreaterThanOrEqual(4);
      expect((await heard(one)).shakes).toBeGreaterThanOrEqual(1);
      await one.lookAt('the alarm on the animals page');
    }
    await look(phone, 'animals-alarm');
  });

  it('is seen above a sheet, beside its buttons, and leads to the reading from there (Verifies: TEST-R86)', async () => {
    const { page } = phone;
    await phone.open(`/round/${round}`);
    await phone.says('Sections, in this order');
    const size = page.viewportSize() ?? { width: 390, height: 844 };
    for (const small of [
      { width: 390, height: 844 },
      { width: 320, height: 568 },
    ]) {
      await page.setViewportSize(small);
      await phone.press(/^Tove Margin/);
      await page.getByRole('dialog').waitFor();
      const ends = ['.dialog h2', '.dialog .act-pair button:last-of-type'];
      for (const end of ends) {
        await page.locator(end).first().scrollIntoViewIfNeeded();
        expect(await page.evaluate(coveredOnSheet), `${end} at ${small.width}x${small.height}`).toEqual([]);
      }
      await look(phone, `sheet-alarm-${small.width}`);
      if (small.width === 390) await page.keyboard.press('Escape');
    }
    await page.locator('.dialog').getByText('Read Serin’s test now').click();
    await phone.says(/^Read Serin|What do you see|control/i);
    expect(await page.locator('.dialog').count()).toBe(0);
    expect(page.url()).toMatch(/\/read\//);
    await page.setViewportSize(size);
  });

  it('read on the partner’s phone lies inside its window, on both (Verifies: TEST-R12)', async () => {
    await partner.page.getByText('Read Serin’s test now').click();
    await partner.see({ control: 'seen', antigen: 'not seen', invalid: 'not seen' });
    await partner.press('✓ Record this reading');
    await partner.says(/Serin.*negative|Negative/);
    await partner.isSent();
    await partner.saysNot(/Not valid/);
    // The other phone hears of it; only the second test runs there now.
    await expect.poll(() => phone.page.getByText('Read Serin’s test now').count()).toBe(0);
    await phone.open(`/round/${round}`);
    await phone.saysNot(/Not valid/);
    await partner.open('/animals');
    await partner.page.getByRole('link', { name: 'Serin' }).first().click();
    await partner.saysNot(/Not valid/);
  });

  it('is still warned of the clock after a reload without the network (Verifies: LOG-R32)', async () => {
    await phone.isSent();
    await phone.page.context().setOffline(true);
    await phone.open('/');
    await phone.says(/The clock of this device is 43 minutes fast/);
    await phone.says('clock is wrong');
    await phone.page.locator('.round-threads').waitFor();
    await phone.page.context().setOffline(false);
  });
});
