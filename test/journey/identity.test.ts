import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { beginRound } from './pages/round-begin.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
/** Invented animals of the demo; their chips are invented too. */
const chips = { Brambling: '900000000204276', Serin: '900000000204289', Twite: '900000000204315' };

const shelter = openShelter('identity', start);
let { clock, phone }: Opened = {} as Opened;

beforeAll(() => {
  ({ clock, phone } = shelter());
});

/** Numbers that stand on this phone as read from chips, whatever for. */
const numbersKept = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const open = indexedDB.open('roundhand');
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      open.onsuccess = () => resolve(open.result);
      open.onerror = () => reject(open.error);
    });
    const all = db.transaction('records').objectStore('records').getAll();
    const rows = await new Promise<{ kind: string; body: { found?: { code: string } | null } }[]>((resolve, reject) => {
      all.onsuccess = () => resolve(all.result);
      all.onerror = () => reject(all.error);
    });
    db.close();
    return rows.flatMap((row) => (row.kind === 'chip-scanned' ? (row.body.found?.code ?? []) : []));
  });

/** A reader that sends a key every 12 ms, at a page that stands still for a while in the middle of it. */
async function scanWhileBusy(page: Page, code: string, at: number): Promise<void> {
  await page.evaluate((busyAt) => {
    let heard = 0;
    const stand = (): void => {
      heard += 1;
      if (heard !== busyAt) return;
      window.removeEventListener('keydown', stand, true);
      // After the key has been dealt with: the keys behind it wait, and so does every timer.
      setTimeout(() => {
        const until = performance.now() + 700;
        while (performance.now() < until);
      }, 0);
    };
    window.addEventListener('keydown', stand, true);
  }, at);
  const keys = await page.context().newCDPSession(page);
  const begun = Date.now() / 1000 - 0.2;
  const enter = { key: 'Enter', code: 'Enter', windowsVirtualKeyCode: 13, text: '\r' };
  const strokes = [...[...code].map((key) => ({ key, text: key })), enter];
  await Promise.all(
    strokes.map((stroke, index) =>
      keys.send('Input.dispatchKeyEvent', { type: 'keyDown', timestamp: begun + index * 0.012, ...stroke }),
    ),
  );
  await keys.detach();
}

const look = async (name: string): Promise<void> => {
  await phone.lookAt(name);
  if (process.env.ROUNDHAND_LOOK === undefined) return;
  for (const [width, height] of [
    [390, 844],
    [320, 568],
  ] as const) {
    await phone.page.setViewportSize({ width, height });
    await phone.page.screenshot({ path: `${process.env.ROUNDHAND_LOOK}/identity-${name}-${width}.png` });
  }
  await phone.page.setViewportSize({ width: 390, height: 844 });
};

/** Scrolled down on the smallest phone, the answer to the next scan has the focus and lies inside the page. */
const isSeenOnSmall = async (answer: RegExp): Promise<void> => {
  await phone.page.setViewportSize({ width: 320, height: 568 });
  await phone.page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
  await phone.scan('90000000020427');
  const told = phone.page.locator('.scan-answer:focus', { hasText: answer });
  await told.waitFor();
  const box = await told.boundingBox();
  expect(box?.y).toBeGreaterThanOrEqual(0);
  expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThan(568);
  await phone.page.setViewportSize({ width: 390, height: 844 });
};

/** What a hostile hour brings: clocks set back, scans cut in two, two people at one field, look-alikes. */
describe.sequential('which animal is this', () => {
  it('a scan on the list opens the animal it belongs to, or says whose it is (Verifies: ROUND-R27)', async () => {
    await beginRound(phone, ['Kitten room B', 'Intake']);
    await phone.scan(chips.Brambling);
    await phone.says(/This is Brambling \(Kitten room B, kennel B1\)/);
    await phone.press('Go to Kitten room B');
    await phone.goIn(['gloves']);
    await phone.scan('900000000299999');
    await phone.says(/No animal here carries the chip/);
    await phone.scan(chips.Brambling);
    await phone.says('identified by its chip');
    expect(phone.page.url()).toMatch(/\/animal\//);
  });

  it('stops at another’s chip, also when the clock was set back since (Verifies: ROUND-R24)', async () => {
    await clock.pass(-1, -30);
    const drawn = await phone.records('sample-drawn');
    await phone.scan(chips.Serin);
    await phone.says('Stop. This is not Brambling.');
    expect(await phone.page.locator('.chip-sign.differs').count()).toBeGreaterThan(0);
    await look('wrong-animal');
    await phone.page.reload();
    await phone.says('Stop. This is not Brambling.');
    expect(await phone.button('✓ Drawn, usable').count()).toBe(0);
    expect(await phone.records('sample-drawn')).toBe(drawn);
    await phone.press('Override…');
    await phone.says(/was read here\. It is in another cat/);
    await phone.saysNot('the chip could not be read');
    await phone.press('Back');
    await phone.press('Scan again');
    await phone.scan(chips.Brambling);
    await phone.says('identified by its chip');
  });

  it('a piece of a number is said to be cut and is never kept (Verifies: CHIP-R17, ROUND-R83)', async () => {
    const before = await phone.records('chip-scanned');
    for (const piece of ['000204276', '900000000', '9000000002']) {
      await phone.scan(piece);
      await phone.says(`Cut, scan again: ${piece} is only a piece`);
    }
    await phone.scan('900000');
    await phone.says(/Cut, or two in one: 6 digits came/);
    await phone.scan('90000000020427');
    await phone.says(/Cut: only 14 digits came/);
    await isSeenOnSmall(/Cut: only 14 digits came/);
    expect(await phone.records('chip-scanned')).toBe(before);
    await look('cut');
    await scanWhileBusy(phone.page, chips.Brambling, 9);
    await expect.poll(() => phone.records('chip-scanned')).toBe(before + 1);
    expect((await numbersKept(phone.page)).filter((code) => code.length !== 15)).toEqual([]);
    await phone.saysNot('Stop. This is not Brambling.');
  });

  it('what one person typed is not the next one’s, and the animal is made sure of again (Verifies: ROUND-R26)', async () => {
    await phone.page.goto(phone.page.url().replace(/\/animal\/.*/, ''));
    await phone.press('Go on in Kitten room B');
    await phone.turnTo('Twite');
    await phone.scan(chips.Twite);
    await phone.says('identified by its chip');
    await phone.type(/Weight on the scale/, '57');
    await phone.press(/^Tove Margin/);
    await phone.page.locator('.dialog').getByText('Mina Folio').first().click();
    await phone.press('This is our team');
    await phone.says(/Is this Twite\? Scan the chip/);
    await phone.scan(chips.Twite);
    await phone.says('identified by its chip');
    expect(await phone.page.getByLabel(/Weight on the scale/).inputValue()).toBe('');
    await phone.says('Tove Margin typed “57” here and did not record it.');
    await look('draft');
    await phone.press('Throw it away');
    await phone.settles(/Tove Margin typed/);
  });

  it('marks that a neighbour has too prove nothing, and none to be seen is no mark (Verifies: ROUND-R3, ROUND-R25)', async () => {
    await phone.page.goto(phone.page.url().replace(/\/animal\/.*/, ''));
    await phone.press('Go on in Kitten room B');
    await phone.turnTo('Knot');
    await phone.says(/The marks on record do not tell Knot from Ruff, Dunlin/);
    expect(await phone.button('Compare marks').count()).toBe(0);
    expect(await phone.page.getByText('none to be seen').count()).toBe(0);
    await look('alike');
    await phone.press('Override…');
    expect(await phone.button('It is Knot, go on').isDisabled()).toBe(true);
    await phone.choose('no chip, and marks like');
    await phone.press('It is Knot, go on');
    await phone.says(/identified by word/);
  });
});
