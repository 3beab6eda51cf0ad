import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';

/** A Thursday evening; every animal, person and signature of the ward is invented (dose-ward.mjs). */
const start = '2026-05-14T18:30:00.000Z';
const roundPath = '/round/dose-round/animal/';

const shelter = openShelter('dose', start, { script: './serve-dose.mjs' });
let { clock, phone }: Opened = {} as Opened;

beforeAll(async () => {
  ({ clock, phone } = shelter());
  await phone.takeDemo();
  await phone.workAs('ines (invented)');
});

/** Stands before an animal of the round, made sure of by its marks. */
async function standBefore(name: string): Promise<void> {
  // Who is in the hands is whoever was made sure of last: time has to pass between two animals.
  await clock.pass(0, 20);
  await phone.open(`${roundPath}${name.toLowerCase()}`);
  await phone.freshGloves();
  await phone.says('Compare one by one');
  await phone.compareMarks(name);
  await phone.says(/^identified by/);
}

/** Each trap as a person meets it: the sentence that stops, and what it tells to do. */
describe.sequential('the traps of dosing, at the cage', () => {
  it('an old weight is asked for anew, and pounds taken for kilograms want a second weighing (DOSE-R13, DOSE-R14)', async () => {
    await standBefore('Anise');
    await phone.says('Weigh');
    await phone.type(/Weight/, '2 kg');
    await phone.says(/that is the step between pounds and kilograms/);
    await phone.lookAt('a weight in the wrong unit');
    await phone.press('Keep it, weigh again');
    await phone.says('Weigh again');
    await phone.says(/The first weighing was 2,000\sg/);
    await phone.type(/Weight/, '930');
    await phone.press('✓ Record this weight');
    await phone.says(/0\.19\smL/);
    expect(await phone.records('animal-weighed')).toBe(12);
  });

  it('a slip of the decimal sign is named and not believed (DOSE-R2, DOSE-R14)', async () => {
    await standBefore('Basil');
    await phone.type(/Weight/, '6.5 kg');
    await phone.says(/about ten times off\. Check the decimal sign/);
    await phone.type(/Weight/, '65');
    await phone.says(/about ten times off/);
    await phone.type(/Weight/, '655 kg');
    await phone.says(/more than any cat\. Were 655\sg meant\?/);
    await phone.type(/Weight/, '0,65 kg');
    await phone.says(/650\sg \(that is 0\.65\skg, or 1\slb\s6\.9\soz\)/);
    await phone.type(/Weight/, '650g');
    await phone.press('✓ Record this weight');
    await phone.says(/0\.13\smL/);
  });

  it('after the card was read a corrected weight stops it until it is drawn up again (Verifies: ROUND-R89)', async () => {
    await phone.open(`${roundPath}basil/recorded`);
    await phone.press('Correct…');
    await phone.type(/Weight/, '750g');
    await phone.press('Keep the correction');
    await phone.press('To Basil');
    await phone.says(/The amount changed from 0\.13\smL to 0\.15\smL\./);
    await phone.lookAt('the amount changed after drawing up');
    await phone.saysNot('✓ Given as drawn');
    // The flat battery in between confirms nothing.
    await phone.page.reload();
    await phone.says(/The amount changed from 0\.13\smL to 0\.15\smL\./);
    await phone.press(/Drawn up again: 0\.15\smL/);
    await phone.says('✓ Given as drawn');
    await phone.saysNot(/The amount changed/);
  });

  it('a tenfold amount is stopped before it is recorded (DOSE-R17)', async () => {
    await standBefore('Cress');
    await phone.says(/0\.16\smL/);
    await phone.press('Different amount…');
    await phone.page
      .getByRole('dialog')
      .getByLabel(/mL|Or type/)
      .last()
      .fill('1.6 mL');
    await phone.says(/1\.6\smL is 10 times the dose of 0\.16\smL\. Stop\./);
    await phone.page.keyboard.press('Escape');
    expect(await phone.records('treatment-given')).toBe(1);
  });

  it('the strength for dogs is caught by the label in the hand (DOSE-R21)', async () => {
    await standBefore('Dill');
    await phone.says('No lot is in stock. Type what the label says.');
    await phone.says('Which strength does the label in your hand say?');
    await phone.lookAt('which strength the label says');
    await phone.press(/^120\smg\sper\smL$/);
    await phone.says(/The same volume would be 2 times the dose\. It is: the strength for dogs\. Put it back/);
    // Beside the card nothing goes on record that the card does not let through.
    await phone.press('Different amount…');
    const sheet = phone.page.getByRole('dialog');
    await sheet.getByText(/only a veterinarian’s word lets this one through/).waitFor();
    await sheet.getByLabel('Or type it').fill('0.25 mL');
    await phone.lookAt('a different amount of another strength');
    await phone.saysNot('Record what happened');
    await phone.saysNot('This much was really given');
    await sheet.getByRole('button', { name: '■ Stopped. What now…' }).click();
    await phone.says('Whose word');
    await phone.page.keyboard.press('Escape');
    await phone.press('■ Stopped. What now…');
    await phone.says('Take another one; only a veterinarian’s word lets this one through.');
    await phone.lookAt('another strength, and whose word');
    await phone.choose('mara (invented)');
    await phone.choose('in person');
    await phone.type(/Why, in the veterinarian/, 'the other vial is empty');
    await phone.press('Go on, on this word');
    // The milligrams stay, the volume is half, and the card says of which strength it is.
    await phone.says(/0\.125\smL/);
    await phone.says(/This volume is that of 120\smg\sper\smL, no other/);
    await phone.lookAt('the volume of another strength');
    // The volume of the right strength is twice the dose of this one.
    await phone.press('Different amount…');
    await phone.says(/This volume is that of 120\smg\sper\smL, no other/);
    await phone.page.getByRole('dialog').getByLabel('Or type it').fill('0.25 mL');
    await phone.says(/0\.25\smL is 2 times the dose of 0\.125\smL\. Stop\./);
    await phone.page.keyboard.press('Escape');
    await phone.press(/^60\smg\sper\smL$/);
    await phone.saysNot(/times the dose/);
    await phone.saysNot(/This volume is that of/);
    await phone.says(/0\.25\smL/);
  });

  it('under the age of the label an order goes on by the order alone, and no word at the cage opens it (PROT-R58)', async () => {
    await standBefore('Elder');
    await phone.says(/the label asks for 8\sweeks of age, this animal is 5\sweeks old/);
    await phone.press('■ Stopped. What now…');
    await phone.says(/Only the order lets this through/);
    await phone.saysNot('Whose word');
    await phone.lookAt('a stop of the label on an order');
    // The one word there is opened the other strength before.
    expect(await phone.records('gate-opened')).toBe(1);
  });

  it('a weight between two printed bands is asked about, never given to one of them (DOSE-R6)', async () => {
    await standBefore('Fennel');
    await phone.says(/4,700\sg lies between two printed bands \(10\slb and 11\slb\)\. Ask the medical team/);
    await phone.saysNot(/Plunger at/);
  });

  it('the second day of a course says that it is the second of three, on card and label (DOSE-R22)', async () => {
    await standBefore('Ginger');
    await phone.says(/dose 2 of 3 · the one before was given 13 May 2026, 18:00/);
    await phone.open('/drawup/round-dose-round');
    await phone.says('To be drawn up for the cart');
    await phone.says('dose 2 of 3');
    await phone.lookAt('draw-up sheet');
    await phone.page.getByRole('link', { name: 'Ginger' }).click();
    await phone.says('dose 2 of 3');
    await phone.says(/0\.25\smL/);
    await phone.lookAt('draw-up card');
  });

  it('a very small volume is worked out by a second person who does not see the first answer (DOSE-R12, DOSE-R31)', async () => {
    // Under eight weeks: the order of the veterinarian opens the label's age.
    await standBefore('Iris');
    await phone.press('A second person works it out alone…');
    await phone.says('The first answer is not shown.');
    await phone.saysNot(/0\.035/);
    // biome-ignore lint/performance/useDomNodeTextContent: what can be seen is asked for, and the weight is hidden
    expect(await phone.page.locator('body').innerText()).not.toMatch(/330/);
    await phone.press(/Who works it out/);
    await phone.page.getByRole('option', { name: 'tom (invented)' }).click();
    await phone.lookAt('the second person, alone');
    await phone.type(/^Weight/, '330');
    await phone.type(/At the plunger/, '0.35 mL');
    await phone.press('Compare');
    await phone.says('The two volumes do not agree. Nothing is given.');
    await phone.type(/^Weight/, '330');
    await phone.type(/At the plunger/, '3.5 units');
    await phone.press('Compare');
    await phone.says('Worked out twice, each alone, and the same');
    await phone.says(/Let through by tom \(invented\), worked out alone: 330\sg, 0\.035\smL/);
  });

  it('0.075 mL with only a 3 mL syringe on the cart names the syringe that would do (DOSE-R7)', async () => {
    await standBefore('Hyssop');
    await phone.says(/0\.075\smL/);
    // What is not on the cart is put aside one by one, until only the 3 mL syringe is left.
    await phone.pressAway(phone.button('Other syringe'));
    await phone.says(/No syringe at hand can measure 0\.07496\smL\. This would: U-100 insulin syringe 0\.3 mL/);
    await phone.saysNot(/Plunger at/);
  });

  it('a draw that would pass the limit of blood is stopped before the needle (TEST-R10)', async () => {
    await standBefore('Juniper');
    await phone.says(/is more blood than this animal may lose: 1\.26\smL in 7 days, of which 1\.2\smL/);
    await phone.says(/Do not draw\. Put the needle away/);
    await phone.lookAt('no blood to be drawn');
    await phone.saysNot('✓ Drawn, usable');
    // What has happened all the same is still taken down.
    await phone.press('Blood has been drawn already: record it');
    await phone.press('✓ Drawn, usable');
    await phone.says(/: start the test$/);
    // Blood that waited too long: the way leads to a new draw, and the old blood stands until that is done.
    await clock.pass(6);
    await phone.says(/This blood has waited \d+ minutes/);
    await phone.press('Draw again');
    await phone.says(/is more blood than this animal may lose/);
    expect(await phone.records('test-abandoned')).toBe(0);
    await phone.press('Blood has been drawn already: record it');
    await phone.press('✓ Drawn, usable');
    await phone.says(/: start the test$/);
    await phone.settles(/This blood has waited/);
    expect(await phone.records('test-abandoned')).toBe(1);
  });

  it('labels are exactly their size, one a page and no page besides (Verifies: DOSE-R39)', async () => {
    for (const [size, width_mm, height_mm] of [
      ['62x29', 62, 29],
      ['57x32', 57, 32],
    ] as const) {
      await phone.open(`/drawup/round-dose-round/labels/${size}`);
      await phone.says('Labels for syringes');
      const labels = await phone.page.locator('.label-preview .syringe-label').count();
      expect(labels).toBeGreaterThan(2);
      const pages = pagesOf(await phone.page.pdf({ preferCSSPageSize: true }));
      expect(pages).toHaveLength(labels);
      for (const [width, height] of pages) {
        // The browser lays pages out in whole pixels of 0.265 mm.
        expect(Math.abs(width - width_mm)).toBeLessThan(0.27);
        expect(Math.abs(height - height_mm)).toBeLessThan(0.27);
      }
    }
    await phone.lookAt('labels for syringes');
    // Nothing of a label is cut off, whatever the name of the product.
    const cut = await phone.page
      .locator('.label-preview .syringe-label')
      .evaluateAll(
        (all) =>
          all.filter((one) => one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1).length,
      );
    expect(cut).toBe(0);
  });

  it('a litter is weighed with one thumb: box off, next animal by itself, a doubt stays (Verifies: DOSE-R37)', async () => {
    await phone.open('/weigh');
    await phone.lookAt('litters for the scale');
    await phone.page.getByRole('link', { name: /Herb litter/ }).click();
    await phone.says('0 of 10 done');
    const keys = async (digits: string): Promise<void> => {
      for (const digit of digits) await phone.page.getByRole('button', { name: digit, exact: true }).click();
    };
    await keys('120');
    await phone.press('That is the empty box');
    await keys('1050');
    await phone.says(/Less the box of 120\sg: 930\sg/);
    await phone.press('✓ Keep, next animal');
    await phone.says('1 of 10 done');
    await phone.page.getByRole('heading', { name: 'Basil' }).waitFor();
    await keys('185');
    await phone.says(/about ten times off/);
    await phone.lookAt('a doubt on the scale');
    await phone.press('Keep it, weigh again');
    await phone.says(/The first weight was 65\sg\. Take it off/);
    await phone.page.getByRole('heading', { name: 'Basil' }).waitFor();
    expect(await phone.records('animal-weighed')).toBeGreaterThan(12);
  });

  it.each([
    ['Cress', '1600', '1605', /one scale alone does not prove that\. Weigh it on another scale/, 1],
    ['Iris', '3300', '3310', /no cat of 3\sweeks weighs that: .* Have the medical team weigh it/, 0],
  ])(
    '%s twice wrong on one scale is not believed, on the card neither (Verifies: LOG-R171)',
    async (name, one, two, why, ticks) => {
      await phone.open(`/animals/${name.toLowerCase()}`);
      await phone.press('Weigh');
      const sheet = phone.page.getByRole('dialog');
      for (const grams of [one, two]) {
        await sheet.getByRole('textbox').first().fill(grams);
        await sheet.getByText('(doubtful)').waitFor();
        if (grams === one) await sheet.getByRole('button', { name: 'Weigh', exact: true }).click();
        if (grams === one) await sheet.getByText('Kept as doubtful. Weigh again now.').waitFor();
      }
      await phone.says(why);
      expect(await sheet.getByText('This was another scale than before').count()).toBe(ticks);
      await phone.lookAt(`${name} weighed twice wrong`);
      await sheet.getByRole('button', { name: 'Weigh', exact: true }).click();
      await phone.says(ticks === 1 ? 'Weight far from the last' : 'Weight of no cat of its age');
      await phone.open(`${roundPath}${name.toLowerCase()}`);
      await phone.saysNot(/Worked out for (1,605|3,310)/);
    },
  );

  it('a correction far from the dose is stopped as at the card (Verifies: ROUND-R103)', async () => {
    await standBefore('Hyssop');
    await phone.press('✓ Given as drawn');
    await phone.says('Hyssop is done');
    await phone.open(`${roundPath}hyssop/recorded`);
    await phone.press('Correct…');
    await phone.type('Amount given', '0.75');
    await phone.says(/0\.75\smL is 10 times the dose of 0\.075\smL\. Stop\./);
    await phone.saysNot('Keep the correction');
    await phone.lookAt('a correction far from the dose');
    await phone.press('Leave it as it is');
    await phone.says(/0\.075\smL/);
  });
});

/** Width and height of each page of a document in millimetres, from its own boxes. */
function pagesOf(pdf: Buffer): (readonly [number, number])[] {
  const text = pdf.toString('latin1');
  return [...text.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map(
    ([, width, height]) => [(Number(width) * 25.4) / 72, (Number(height) * 25.4) / 72] as const,
  );
}
