import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { Phone } from './pages/phone.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
const look = process.env.ROUNDHAND_LOOK ?? null;
/** Invented animals of the demo: a litter in kennel B1, and one of the litter in B2. */
const serin = '900000000204289';
const asked = 'Fresh gloves first';
const on = '✓ Fresh gloves on';

const shelter = openShelter('gloves', start);
let { clock, phone, desk }: Opened = {} as Opened;
/** The other phone of the same team. */
let partner = {} as Phone;
let round = '';
const at: Record<string, string> = {};

beforeAll(async () => {
  ({ clock, phone, desk } = shelter());
  await phone.takeDemo();
  await phone.workAs('Tove Margin');
  partner = new Phone(desk.page, desk.home);
  await partner.open('/');
  await partner.workAs('Jonas Blotter');
  await phone.open('/rounds/prepare');
  for (const section of ['Kitten room A', 'Intake', 'Adult ward', 'Foster homes', 'Quarantine', 'Isolation'])
    await phone.choose(section);
  await phone.pick('Holds', 'Jonas Blotter');
  await phone.press('Begin the round');
  await phone.says('Sections, in this order');
  round = /\/round\/([^/]+)/.exec(phone.page.url())?.[1] ?? '';
  await phone.press('Take tests out of the cold');
  await phone.press(/^Take \d+ out now/);
  await phone.says(/warming/);
  await clock.pass(31);
  await phone.stillUs();
  await phone.press('To the round');
  await phone.press('Go to Kitten room B');
  await phone.goIn(['gloves']);
  for (const name of ['Serin', 'Siskin', 'Twite', 'Ruff']) {
    const href = await phone.page.getByRole('link', { name }).first().getAttribute('href');
    at[name] = href ?? '';
  }
});

/** Fresh gloves as cart and plan count them, and as no way around them is left (Verifies: ROUND-R23). */
describe.sequential('fresh gloves at the cage', () => {
  it('the door has asked for the first pair; a litter shares it', async () => {
    await phone.open(at.Serin ?? '');
    await phone.says(/^Is this Serin/);
    await phone.scan(serin);
    await phone.says('identified by its chip');
    await phone.open(at.Siskin ?? '');
    await phone.says(/Is this Siskin|Compare one by one/);
    await phone.saysNot(asked);
  });

  it('stand before an animal of another litter, by list and by address, over a reload, and before its scan', async () => {
    await phone.open(`/round/${round}`);
    await phone.press('Go on in Kitten room B');
    await phone.page.getByRole('link', { name: 'Ruff' }).first().click();
    await phone.says(asked);
    await phone.says('Serin was another litter. Fresh gloves before you touch Ruff.');
    await phone.lookAt('fresh gloves');
    if (look !== null) await phone.page.screenshot({ path: `${look}/gloves.png` });
    const identified = await phone.records('animal-identified');
    await phone.scan(serin);
    await phone.says(/The scan was not taken/);
    expect(await phone.records('animal-identified')).toBe(identified);
    await phone.page.reload();
    await phone.says(asked);
    await phone.open(`${at.Ruff}/weigh`);
    await phone.says(asked);
    await phone.open(at.Ruff ?? '');
    await phone.button(on).dblclick();
    await phone.says(/Is this Ruff|Compare one by one/);
    expect(await phone.records('gloves-changed')).toBe(1);
    await phone.page.reload();
    await phone.says(/Is this Ruff|Compare one by one/);
    await phone.saysNot(asked);
  });

  it('are one change for the team: what one phone notes the other one knows', async () => {
    await phone.press('Override…');
    await phone.choose('the team knows the animal');
    await phone.press(/^It is Ruff/);
    await phone.says('identified by word');
    await phone.isSent();
    await partner.open(at.Ruff ?? '');
    await partner.says('Ruff');
    await partner.saysNot(asked);
    await phone.open(at.Siskin ?? '');
    await phone.says(asked);
    await partner.open(at.Siskin ?? '');
    await partner.press(on);
    await partner.says(/Is this Siskin|Compare one by one/);
    await phone.settles(asked);
    expect(await phone.records('gloves-changed')).toBe(2);
  });

  it('come after a reactive animal, before its litter mate too', async () => {
    // Who is in the hands is whoever was made sure of last: time passes between two animals.
    await clock.pass(0, 20);
    await phone.open(at.Serin ?? '');
    await phone.freshGloves();
    await phone.says(/^Is this Serin/);
    await phone.scan(serin);
    await phone.press('✓ Drawn, usable');
    await phone.choose('The bottle says');
    await phone.press('Right box. Next');
    await phone.runKit();
    await phone.says('Roundworm treatment');
    await clock.pass(8, 5);
    await phone.page.getByText('Read Serin’s test now').first().click();
    await phone.see({ control: 'seen', antigen: 'seen', invalid: 'not seen' });
    expect(await phone.button('✓ Record this reading').isDisabled()).toBe(true);
    await phone.choose('has looked and sees the same');
    await phone.press('✓ Record this reading');
    await phone.says('Do this now');
    await phone.open(at.Twite ?? '');
    await phone.says('Serin’s test was reactive or faint. Fresh gloves before you touch Twite.');
    await phone.press(on);
    await phone.says(/Is this Twite|Compare one by one/);
    await phone.open(`/round/${round}/hand-back`);
    await phone.says('Gloves changed between animals: 3 times.');
  });
});
