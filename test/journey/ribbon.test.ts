import { writeFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import type { Desk } from './pages/desk.js';
import { blockOf, countTones, dragOnDrawing, orderOnDrawing, planStands } from './pages/drawing.js';
import type { Phone } from './pages/phone.js';
import { canReadPdf, pagesOf } from './paper.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
const pictures = process.env.ROUNDHAND_LOOK ?? null;
/** Invented animals of the demo; their chips are invented too. */
const chips = { Brambling: '900000000204276', Serin: '900000000204289' };
const sections = ['Kitten room A', 'Adult ward', 'Foster homes', 'Quarantine', 'Isolation'];

const shelter = openShelter('ribbon', start);
let { clock, phone, desk }: Opened = {} as Opened;
let round = '';

beforeAll(() => {
  ({ clock, phone, desk } = shelter());
});

const isFocused = (element: Element): boolean => element === document.activeElement;

const picture = async (device: Phone | Desk, name: string): Promise<void> => {
  if (pictures !== null) await device.page.screenshot({ path: `${pictures}/${name}.png`, fullPage: true });
};

/** A round planned, worked with what goes wrong, and held beside its plan. */
describe.sequential('the ribbon of a round', () => {
  it('shows the plan before the shift, and how good it is', async () => {
    await phone.takeDemo();
    await phone.workAs('Tove Margin');
    await desk.workAs('Ada Quill');
    await desk.open('/rounds/prepare');
    for (const section of sections) await desk.choose(section);
    await desk.says(/Nobody could be done in less than/);
    await desk.says(/The end is set by/);
    await desk.says(/One more team would save/);
    await desk.says(/out of the cold by/);
    await desk.lookAt('plan at the desk');
    await picture(desk, 'plan-desk');
    await desk.page.getByText('The same as a table').click();
    await desk.says('read the test of Brambling');
  });

  it('says who is left when the shift ends first, and how many teams the day needs', async () => {
    await desk.type('Shift ends at', '14:00');
    await desk.says(/not fit before the shift ends/);
    await desk.says(/with the shift/);
    await desk.lookAt('shift too short');
    await desk.type('Shift ends at', '');
    await desk.says(/One more team would save/);
  });

  it('follows another order, and names the rule that one would break (Verifies: RIBBON-R8)', async () => {
    await planStands(desk);
    await desk.page.getByText('Change the order').click();
    const list = desk.page.getByRole('grid', { name: 'Order in Kitten room B' });
    const names = async (): Promise<string[]> =>
      (await list.getByRole('row').allInnerTexts()).map((text) => /[A-Z][a-z]+/.exec(text)?.[0] ?? '');
    const before = await names();
    await list.getByRole('button', { name: `${before[1]} earlier` }).click();
    await desk.says('Back to the shortest order');
    expect((await names()).slice(0, 2)).toEqual([before[1], before[0]]);
    // It can go no earlier, and whoever works with keys goes on from where it is.
    await expect.poll(() => list.getByRole('row', { name: before[1] ?? '' }).evaluate(isFocused)).toBe(true);
    // The last animal is dragged, by keyboard, between those of the first litter: that would part it.
    await desk.page.keyboard.press('End');
    await desk.page.keyboard.press('ArrowRight');
    const grip = list.getByRole('button', { name: `Move ${before.at(-1)}` });
    await expect.poll(() => grip.evaluate(isFocused)).toBe(true);
    await desk.page.keyboard.press('Enter');
    for (let i = 0; i < before.length - 2; i += 1) await desk.page.keyboard.press('ArrowUp');
    await desk.page.keyboard.press('Enter');
    await desk.says(/is handled together, with fresh gloves before the next/);
    await desk.lookAt('order refused');
    await desk.press('Back to the shortest order');
    await expect.poll(names).toEqual(before);
  });

  it('is dragged on the drawing itself, by pointer (Verifies: RIBBON-R14)', async () => {
    const before = await orderOnDrawing(desk, 'Kitten room B');
    const [first = '', second = ''] = before;
    await dragOnDrawing(desk, first, second, 0.9);
    await desk.says(`${first} before ${before[2]}`);
    // Not the whole page: that would move the page under the pointer.
    if (pictures !== null) await desk.page.screenshot({ path: `${pictures}/drag-desk.png` });
    await desk.page.mouse.up();
    await desk.says(`Put down: ${first} before ${before[2]}.`);
    await expect.poll(() => orderOnDrawing(desk, 'Kitten room B')).toEqual([second, first, ...before.slice(2)]);
    // The list behind tells the same order.
    const rows = desk.page.getByRole('grid', { name: 'Order in Kitten room B' }).getByRole('row');
    expect((await rows.allInnerTexts()).map((text) => /[A-Z][a-z]+/.exec(text)?.[0])).toEqual([
      second,
      first,
      ...before.slice(2),
    ]);
    await desk.press('Back to the shortest order');
    await expect.poll(() => orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
  });

  it('undoes a forbidden drag and names its rule', async () => {
    const before = await orderOnDrawing(desk, 'Kitten room B');
    // The last animal inside the first litter would part it.
    await dragOnDrawing(desk, before.at(-1) ?? '', before[1] ?? '', 0.1);
    await expect.poll(() => desk.page.locator('.ribbon-landing.refused').count()).toBeGreaterThan(0);
    await desk.page.mouse.up();
    const told = desk.page.getByRole('alert').filter({ hasText: 'The order stays as it was.' });
    await expect.poll(() => told.textContent()).toMatch(/is handled together, with fresh gloves before the next/);
    expect(await orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
    // Into another section: sections go from the lowest to the highest risk.
    const [other = ''] = await orderOnDrawing(desk, 'Intake');
    await dragOnDrawing(desk, before[0] ?? '', other, 0.5);
    await desk.page.mouse.up();
    await expect.poll(() => told.textContent()).toMatch(new RegExp(`${before[0]} stays in Kitten room B`));
    expect(await orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
    await desk.lookAt('drag refused');
    // Escape in the middle of a drag leaves everything as it is.
    await dragOnDrawing(desk, before[0] ?? '', before[1] ?? '', 0.9);
    await desk.page.keyboard.press('Escape');
    await desk.page.mouse.up();
    await desk.says(`${before[0]} stays where it was.`);
    expect(await orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
  });

  it('is moved on the drawing with the keys, and says where it is', async () => {
    const before = await orderOnDrawing(desk, 'Kitten room B');
    const [first = '', second = ''] = before;
    const told = desk.page.locator('.ribbon-told');
    await blockOf(desk, first).focus();
    await desk.page.keyboard.press('ArrowRight');
    expect(await desk.page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toContain(second);
    await desk.page.keyboard.press('ArrowLeft');
    await desk.page.keyboard.press('Enter');
    await expect.poll(() => told.textContent()).toContain(`${first} is picked up`);
    await desk.page.keyboard.press('ArrowRight');
    await expect.poll(() => told.textContent()).toBe(`${first} before ${before[2]}`);
    await desk.page.keyboard.press('Enter');
    await expect.poll(() => told.textContent()).toBe(`Put down: ${first} before ${before[2]}.`);
    await expect.poll(() => orderOnDrawing(desk, 'Kitten room B')).toEqual([second, first, ...before.slice(2)]);
    // The focus goes along with the animal.
    expect(await desk.page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toContain(first);
    await desk.lookAt('moved with the keys');
  });

  it('keeps the order of people when the plan is made anew (Verifies: RIBBON-R13)', async () => {
    const before = await orderOnDrawing(desk, 'Kitten room B');
    await desk.type('Shift ends at', '19:00');
    await desk.says(/Nobody could be done in less than/);
    await expect.poll(() => orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
    await desk.type('Shift ends at', '');
    await desk.choose('Intake');
    await expect.poll(() => orderOnDrawing(desk, 'Intake')).toEqual([]);
    await expect.poll(() => orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
    await desk.choose('Intake');
    await expect.poll(async () => (await orderOnDrawing(desk, 'Intake')).length).toBeGreaterThan(0);
    expect(await orderOnDrawing(desk, 'Kitten room B')).toEqual(before);
    await desk.says('Back to the shortest order');
  });

  it('rings when tests have to leave the cold, until somebody answers (Verifies: RIBBON-R15)', async () => {
    // Half an hour of warming: for a round at 14:02 the tests come out at 13:32.
    await desk.type('Starts at', '14:02');
    await desk.says(/An alarm sounds here at 13:32/);
    await desk.says(/Out of the cold by 13:32/);
    await desk.press('Switch the sound on');
    await desk.page.evaluate(countTones);
    await clock.pass(3);
    const alarm = desk.page.getByRole('alert').filter({ hasText: 'out of the cold now' });
    await alarm.waitFor();
    await expect.poll(() => desk.page.evaluate(() => window.roundhandTones ?? 0)).toBeGreaterThan(0);
    await picture(desk, 'fridge-desk');
    await desk.lookAt('fridge alarm');
    await desk.press('Heard, they are being taken out');
    await desk.says(/The alarm is quiet/);
    const sounded = await desk.page.evaluate(() => window.roundhandTones ?? 0);
    // Longer than the pause between two soundings.
    await desk.page.waitForTimeout(7_000);
    expect(await desk.page.evaluate(() => window.roundhandTones ?? 0)).toBe(sounded);
  });

  it('is laid down with the round, and stands on the phone', async () => {
    await phone.open('/rounds/prepare');
    for (const section of sections) await phone.choose(section);
    await phone.says(/Nobody could be done in less than/);
    await phone.lookAt('plan on the phone');
    await picture(phone, 'plan-phone');
    await phone.pick('Holds', 'Mina Folio');
    await phone.press('Begin the round');
    await phone.says('Sections, in this order');
    round = /\/round\/([^/]+)/.exec(phone.page.url())?.[1] ?? '';
    await phone.press(/^Tove Margin/);
    await phone.page.locator('.dialog').getByText('Jonas Blotter').last().click();
    await phone.press('This is our team');
    await phone.press('Take tests out of the cold');
    await phone.press(/^Take \d+ out now/);
    await phone.press('To the round');
    await clock.pass(31);
    await phone.stillUs();
    await phone.press('Go to Kitten room B');
    await phone.goIn(['gloves']);
  });

  it('says what has changed when one animal is skipped and a draw has failed', async () => {
    await phone.turnTo('Brambling');
    await phone.scan(chips.Brambling);
    await phone.says('identified by its chip');
    await phone.press('Draw failed');
    await phone.says(/One draw has failed/);
    await clock.pass(1);
    await phone.press('Not given…');
    await phone.choose('no blood could be drawn');
    await phone.press('Record as not given');
    await phone.says('Roundworm treatment');
    await clock.pass(2);
    await phone.press('✓ Given as drawn');
    await phone.says('Brambling: not all done');
    await phone.open(`/round/${round}/clock`);
    await phone.says(/The test for Brambling is left out/);
    await phone.says(/^Next by the plan/);
    await phone.says(/later than planned/);
    await phone.lookAt('clock on the phone');
    await picture(phone, 'clock-phone');
  });

  it('leaves out who got away, and keeps the others in their order', async () => {
    await phone.press('To the round');
    await phone.press('Go on in Kitten room B');
    await phone.turnTo('Serin');
    await phone.scan(chips.Serin);
    await phone.says('identified by its chip');
    for (const next of ['Roundworm treatment', 'Serin: not all done']) {
      await phone.press('Not given…');
      await phone.choose('refused or escaped');
      await phone.press('Record as not given');
      await phone.says(next);
    }
    await phone.open(`/round/${round}/clock`);
    await phone.says('Serin is left out.');
    await phone.press('5 min');
    await phone.says(/what needs two people waits/);
    await phone.press('Partner is back');
    await phone.isSent();
  });

  it('is the clock at the desk too, and prints', async () => {
    await desk.open(`/rounds/${round}`);
    await desk.says(/The test for Brambling is left out/);
    await desk.lookAt('clock at the desk');
    await picture(desk, 'clock-desk');
    await desk.page.emulateMedia({ media: 'print' });
    expect(await desk.page.locator('.ribbon-paper svg').first().isVisible()).toBe(true);
    await desk.page.emulateMedia({ media: null });
    if (pictures !== null) await desk.page.pdf({ path: `${pictures}/clock.pdf`, preferCSSPageSize: true });
  });

  it('is a sheet of paper whose lines the desk keys in by their codes (Verifies: RIBBON-R10)', async () => {
    await desk.open(`/rounds/${round}/sheet`);
    await desk.says('Not done, why');
    await desk.lookAt('sheet');
    if (pictures !== null) await desk.page.pdf({ path: `${pictures}/sheet.pdf`, preferCSSPageSize: true });
    const row = desk.page.locator('tbody.sheet-animal', { hasText: 'Siskin' }).locator('tr', { hasText: 'Roundworm' });
    const code = (await row.locator('.line-code .mono').textContent()) ?? '';
    await desk.open('/rounds/key-in');
    await desk.says('Key in a sheet');
    await desk.scan(`${code.slice(0, -1)}${code.endsWith('7') ? '8' : '7'}`);
    await desk.says(/was misread/);
    await desk.scan(code);
    await desk.says('Siskin: Roundworm treatment');
    await desk.press(/^As at the head/);
    await desk.choose('Not done');
    await desk.lookAt('keying in');
    await desk.page.getByRole('button', { name: /Why/ }).click();
    await desk.page.getByRole('option', { name: 'ran out of time' }).click();
    await desk.press('Record this line');
    await desk.says('1 line keyed in. Next code.');
    await desk.scan(code);
    await desk.says(/already not done/);
  });

  it('keeps 37 animals whole on paper, three of them with long notes (Verifies: RIBBON-R11)', async () => {
    await desk.open(`/rounds/${round}/sheet`);
    await desk.says('Not done, why');
    // The rows of the sheet itself, again and again up to 37 animals, each with a mark at its first and last line.
    await desk.page.evaluate(() => {
      const [table] = document.querySelectorAll('table.sheet-section');
      const rows = [...(table?.querySelectorAll('tbody') ?? [])];
      for (const one of document.querySelectorAll('table.sheet-section')) if (one !== table) one.remove();
      const copies = Array.from({ length: 37 }, (_, i) => {
        const copy = rows[i % rows.length]?.cloneNode(true) as HTMLElement;
        const name = copy.querySelector('b');
        if (name !== null) name.textContent = `First${i + 1}.`;
        const note = copy.querySelector('tr:last-child td:last-child');
        const long = [3, 17, 30].includes(i) ? 'Ears to be looked at again, eats from the hand only. '.repeat(30) : '';
        if (note !== null) note.textContent = `${long}Last${i + 1}.`;
        return copy;
      });
      for (const row of rows) row.remove();
      table?.append(...copies);
    });
    await desk.page.emulateMedia({ media: 'print' });
    const styles = await desk.page.evaluate(() => {
      const style = (one: string): CSSStyleDeclaration | null => {
        const found = document.querySelector(one);
        return found === null ? null : getComputedStyle(found);
      };
      return {
        rows: style('tbody.sheet-animal')?.breakInside,
        head: style('.sheet-section thead')?.display,
        page: style('.treatment-sheet')?.getPropertyValue('page'),
      };
    });
    expect(styles).toEqual({ rows: 'avoid', head: 'table-header-group', page: 'treatment' });
    const pdf = await desk.page.pdf({ preferCSSPageSize: true });
    await desk.page.emulateMedia({ media: null });
    if (pictures !== null) writeFileSync(`${pictures}/sheet-37.pdf`, pdf);
    // Without a reader of PDFs the styles are all that can be looked at.
    if (!canReadPdf) return;
    const pages = pagesOf(pdf);
    expect(pages.length).toBeGreaterThan(3);
    for (const [i, page] of pages.entries()) {
      expect(page).toMatch(/Treatment sheet · 14 May 2026 · Kitten room B/);
      expect(page).toContain(`page ${i + 1} of ${pages.length}`);
    }
    for (let animal = 1; animal <= 37; animal += 1) {
      const first = pages.findIndex((page) => page.includes(`First${animal}.`));
      expect(first, `animal ${animal}`).toBeGreaterThanOrEqual(0);
      expect(pages[first], `animal ${animal} on page ${first + 1}`).toContain(`Last${animal}.`);
    }
  });

  it('stands beside what happened once the round is handed back', async () => {
    await clock.pass(5);
    await phone.open(`/round/${round}/hand-back`);
    await phone.page.getByRole('link', { name: 'Leave this section' }).click();
    await phone.goOut();
    await phone.press('Hand the round back');
    await phone.choose('ran out of time');
    await phone.press('Hand back');
    await phone.says('The round is handed back');
    await phone.isSent();
    await desk.open(`/rounds/${round}`);
    await desk.says('Accept the hand-back');
    await desk.page
      .getByRole('img', { name: /What happened, above what was planned/ })
      .first()
      .waitFor();
    await desk.lookAt('after the round');
    await picture(desk, 'after-desk');
  });
});
