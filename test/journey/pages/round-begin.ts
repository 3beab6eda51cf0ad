import type { Phone } from './phone.js';

const all = ['Kitten room A', 'Kitten room B', 'Adult ward', 'Foster homes', 'Intake', 'Quarantine', 'Isolation'];

/** A round over these sections of the demo, begun by two of its people; gives the round's id. */
export async function beginRound(phone: Phone, sections: readonly string[]): Promise<string> {
  await phone.takeDemo();
  await phone.workAs('Tove Margin');
  await phone.open('/rounds/prepare');
  await phone.says('Kitten room A');
  for (const section of all) if (!sections.includes(section)) await phone.choose(section);
  await phone.pick('Holds', 'Jonas Blotter');
  await phone.press('Begin the round');
  await phone.says('Sections, in this order');
  return /\/round\/([^/]+)/.exec(phone.page.url())?.[1] ?? '';
}
