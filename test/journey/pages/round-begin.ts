import type { Phone } from './phone.js';

const all = ['Kitten room A', 'Kitten room B', 'Adult ward', 'Foster homes', 'Intake', 'Quarantine', 'Isolation'];

/** A round over these sections of the demo, begun by two of its people; gives the round's id. */
export async function beginRound(phone: Phone, sections: readonly string[]): Promise<string> {
  await phone.takeDemo();
  // On a crowded machine the phone may give up before the server answers; the demo stands all the same.
  const gaveUp = phone.page.getByText('The server did not answer');
  await phone.page.locator('label.choice').or(gaveUp).first().waitFor();
  while ((await gaveUp.count()) > 0) {
    await phone.open('/');
    await phone.page.locator('label.choice').or(phone.button('Try the demo')).first().waitFor();
    if ((await phone.page.locator('label.choice').count()) === 0) await phone.press('Try the demo');
    await phone.page.locator('label.choice').or(gaveUp).first().waitFor();
  }
  await phone.workAs('Tove Margin');
  await phone.open('/rounds/prepare');
  await phone.says('Kitten room A');
  for (const section of all) if (!sections.includes(section)) await phone.choose(section);
  await phone.pick('Holds', 'Jonas Blotter');
  await phone.press('Begin the round');
  await phone.says('Sections, in this order');
  return /\/round\/([^/]+)/.exec(phone.page.url())?.[1] ?? '';
}
