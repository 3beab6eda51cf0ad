import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';

/** A Thursday evening; every animal, person and signature of the ward is invented (serve-words.mjs, dose-ward.mjs). */
const start = '2026-05-14T18:30:00.000Z';
const words = /The order says: “10 mg per kg once a day with food”/;
const notWorkedOut = /[Tt]he tool has not worked this out/;

const shelter = openShelter('words', start, { script: './serve-words.mjs' });
let { clock, phone, desk }: Opened = {} as Opened;

beforeAll(async () => {
  ({ clock, phone, desk } = shelter());
  await phone.takeDemo();
  await phone.workAs('ines (invented)');
});

async function standBefore(name: string): Promise<void> {
  await clock.pass(0, 20);
  await phone.open(`/round/dose-round/animal/${name.toLowerCase()}`);
  await phone.says('Compare one by one');
  await phone.compareMarks(name);
  await phone.says(/^identified by/);
}

/** 10 mg per kg of 743 g are 0.74 mL of 10 mg per mL. The formulary's 5 mg per kg would be 0.37 mL, "dose 1 of 14". */
const figures = [/0\.37\s?mL/, /3\.7\d*\s?mg/, /Plunger at/, /dose 1 of 14/, /mg\sper\skg\.? Worked out/];
async function noFigures(device: Opened['phone'] | Opened['desk']): Promise<void> {
  for (const figure of figures) await device.saysNot(figure);
}

describe.sequential('on paper and at the desk, before the round', () => {
  it('the words stand on draw-up sheet, card, labels, treatment sheet and due list (Verifies: DOSE-R40)', async () => {
    await desk.workAs('mara (invented)');
    for (const path of ['/drawup/round-dose-round', '/rounds/dose-round/sheet', '/due', '/animals/lovage']) {
      await desk.open(path);
      await desk.says(/10 mg per kg once a day with food/);
      await desk.says(/[Nn]ot worked (this )?out|not worked this out/);
      await noFigures(desk);
      await desk.lookAt(`an order in words on ${path}`);
    }
    await desk.open('/drawup/round-dose-round');
    await desk.page.getByRole('link', { name: 'Lovage' }).click();
    await desk.says(words);
    await noFigures(desk);
    await desk.lookAt('the draw-up card of an order in words');
    for (const size of ['62x29', '57x32']) {
      await desk.open(`/drawup/round-dose-round/labels/${size}`);
      await desk.says(words);
      await desk.says('Not worked out by the tool. Drawn: ________');
      await noFigures(desk);
      const cut = await desk.page
        .locator('.label-preview .syringe-label')
        .evaluateAll(
          (all) =>
            all.filter((one) => one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1)
              .length,
        );
      expect(cut, `cut off on ${size}`).toBe(0);
    }
  });

  it('what to weigh first is the same on Prepare and on the round (Verifies: CART-R3)', async () => {
    await desk.open('/rounds/prepare');
    await desk.says(/One by an order in words|by orders in words/);
    await desk.says('Weigh first: 1 animal.');
    // What is stopped is not packed (Verifies: DOSE-R62).
    await desk.says(/Not on the cart, because it is stopped: mirtazapine ointment .* for Mallow/);
    await desk.lookAt('a stopped dose is left out of the cart');
    await desk.says(/too old to dose on: Parsley\./);
    await phone.open('/round/dose-round');
    const first = phone.page.getByRole('region', { name: 'Weigh first' });
    await first.waitFor();
    expect(await first.getByRole('link').allTextContents()).toEqual(['Parsley']);
  });

  it('the axis of the weight curve shows its digits, and a week without a row is said (Verifies: GROW-R12)', async () => {
    await desk.open('/animals/parsley');
    await desk.says(/The table has no row for week 11: nothing is drawn there/);
    const cut = await desk.page.locator('svg[role=img] text').evaluateAll((all) => {
      const left = (one: Element) =>
        one.getBoundingClientRect().left - (one.closest('svg')?.getBoundingClientRect().left ?? 0);
      return all.filter((one) => left(one) < 0).map((one) => one.textContent);
    });
    expect(cut).toEqual([]);
    await desk.open('/animals/quince');
    const wide = desk.page.locator('svg[role=img] text', { hasText: /,\d{3}\sg/ }).first();
    await wide.waitFor();
    const [inside, outside] = await wide.evaluate((one) => [
      one.getBoundingClientRect().left,
      one.closest('svg')?.getBoundingClientRect().left ?? 0,
    ]);
    expect(inside).toBeGreaterThanOrEqual(outside ?? 0);
  });
});

describe.sequential('an order whose amount is words (Verifies: DOSE-R40, DOSE-R41)', () => {
  it('stands on the card as words, and what was given is typed', async () => {
    await standBefore('Lovage');
    await phone.says(words);
    await phone.says(notWorkedOut);
    await noFigures(phone);
    await phone.lookAt('an order in words');
    await phone.press(/^10\smg\sper\smL$/);
    await phone.saysNot('✓ Given as drawn');
    await phone.press('Say how much was given…');
    await phone.type('Amount given, mL', '7.4 mL');
    await phone.says(/is 99\.6\smg\sper\skg, above its range/);
    await phone.type('Amount given, mL', '0.74 mL');
    await phone.says(/0\.74\smL of it is 7\.4\smg: 9\.96\smg\sper\skg at a weight of 743\sg/);
    await phone.press('Record what happened');
    await expect.poll(() => phone.records('treatment-given')).toBe(1);
  });

  it('mirtazapine on 500 g stops; a fluid has a limit, and an amount only from an order (DOSE-R36, DOSE-R42)', async () => {
    await standBefore('Mallow');
    await phone.says(/4\smg\sper\skg is above 1\smg\sper\skg, the most this product may reach/);
    await phone.says(/the label asks for 7\smonths and 15\sdays of age/);
    await phone.saysNot('✓ Given as shown');
    await phone.press('Different amount…');
    await expect.poll(() => phone.page.getByLabel('Given, in grams or as a length').inputValue()).toBe('');
    await phone.lookAt('another amount of what is stopped');
    await phone.press('Back');
    await standBefore('Nettle');
    await phone.says(/the order gives no amount: ask the veterinarian/);
    await phone.says(/at most 5\smL in one place, in 3 places a day\. That is a limit, not a dose/);
    await phone.saysNot(/Plunger at/);
    await standBefore('Orris');
    // Fluids are the medical team's to give here; the words and the limit stand all the same.
    await phone.says('8 mL under the skin');
    await phone.says(/at most 5\smL in one place/);
    await phone.lookAt('a fluid by an order in words');
    await standBefore('Rue');
    await phone.says(/the label asks for/);
    await phone.says('The order says: “half of what the label says”');
    await phone.lookAt('an order in words behind a stop');
    await desk.open('/drawup/round-dose-round');
    await desk.says('The order says: “half of what the label says”');
    await desk.lookAt('an order in words behind a stop, on the sheet');
  });
});
