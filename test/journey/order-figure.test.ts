import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';

/** A Thursday evening; every animal, person and signature of the ward is invented (serve-figure.mjs, dose-ward.mjs). */
const start = '2026-05-14T18:30:00.000Z';
const shelter = openShelter('figure', start, { script: './serve-figure.mjs' });
let { clock, phone, desk }: Opened = {} as Opened;

beforeAll(async () => {
  ({ clock, phone, desk } = shelter());
  await phone.takeDemo();
  await phone.workAs('ines (invented)');
});

/** 10 mg per kg of 500 g are 5 mg, 0.5 mL of 10 mg per mL. */
const volume = /0\.5\smL/;

describe.sequential('an order whose amount is a figure (Verifies: PROT-R51, PROT-R52, PROT-R53)', () => {
  it('is written with what it comes to; outside the limits the veterinarian says that it is meant', async () => {
    await desk.workAs('mara (invented)');
    await desk.open('/animals/nettle');
    await desk.press(/^Write an order/);
    const form = desk.page.getByRole('dialog');
    const comesTo = (text: RegExp) =>
      desk.page.getByRole('region', { name: 'What it comes to today' }).getByText(text).first().waitFor();
    await desk.pick('Product', /^doxycycline/);
    await desk.type('Short name on lists', 'Doxycycline for sneezing');
    await desk.choose('a figure');
    await desk.says('How much is ordered cannot be read yet.');
    await desk.type('Amount', '1,000');
    await form
      .getByText(/two readings|1,000/)
      .first()
      .waitFor();
    await desk.type('Amount', '100');
    await comesTo(/100\smg\sper\skg is above/);
    await desk.type('Amount', '30');
    await desk.says('It is outside the limits of the formulary');
    await desk.lookAt('an order outside the limits');
    await desk.type('Amount', '10');
    await comesTo(volume);
    await desk.settles('It is outside the limits of the formulary');
    await desk.press('Another dose from a later day');
    await desk.says('How much is ordered cannot be read yet.');
    await desk.type('From day', '4');
    await desk.type('From then on, mg per kg', '5');
    await desk.says('before the order is over');
    await desk.type('From day', '3');
    await comesTo(/0\.25\smL/);
    await desk.type('What else is to be minded', 'then give 2 mL of water');
    await form.getByText('Another amount stands in the manner').first().waitFor();
    await desk.type('What else is to be minded', 'a little water afterwards');
    await desk.choose('with food');
    await desk.lookAt('an order as a figure');
    await form.getByRole('button', { name: 'Write an order' }).click();
    await desk.says(/10\smg\sper\skg each time/);
    await desk.says(/at first; from day 3: 5\smg\sper\skg each time/);
    await desk.lookAt('an animal with an order as a figure');
  });

  it('is one amount on the due list and the card at the cage', async () => {
    await desk.open('/due');
    await desk.says(/10\smg\sper\skg each time/);
    await clock.pass(0, 20);
    await phone.open('/round/dose-round/animal/nettle');
    await phone.says('Compare one by one');
    await phone.compareMarks('Nettle');
    await phone.says(/^identified by/);
    await phone.press('Not given…');
    await phone.choose('animal too stressed');
    await phone.press('Record as not given');
    await phone.says('Doxycycline for sneezing');
    await phone.says(volume);
    await phone.says(/By the order: 10\smg\sper\skg each time/);
    await phone.lookAt('the card of an order as a figure');
    await phone.press(/^10\smg\sper\smL$/);
    await phone.press('✓ Given as drawn');
    await expect.poll(() => phone.records('treatment-given')).toBe(1);
  });
});
