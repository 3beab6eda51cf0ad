import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { inSight } from './pages/in-sight.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
/** A chip of the demo's youngest box that is in no animal. */
const freshChip = '900000000304146';
const lot = /lot DEMO-\S+/;

const shelter = openShelter('in-sight', start);
let { clock, phone }: Opened = {} as Opened;
let round = '';
const at: Record<string, string> = {};

beforeAll(async () => {
  ({ clock, phone } = shelter());
  await phone.takeDemo();
  await phone.workAs('Tove Margin');
  await phone.open('/rounds/prepare');
  for (const section of ['Kitten room A', 'Foster homes', 'Quarantine', 'Isolation']) await phone.choose(section);
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
});

/** The figures that a step is about, its button and the reason of a dead one, at three sizes (Verifies: ROUND-R34). */
describe.sequential('what a step is about is in sight', () => {
  it('at the door, with the name of what is not on yet', async () => {
    await phone.press('Go to Kitten room B');
    await inSight(phone, 'door', [/Touch each when it is on: gloves/]);
    await phone.goIn(['gloves']);
    await phone.says(/Kennel B1/);
    for (const name of ['Brambling', 'Serin', 'Siskin', 'Twite']) {
      at[name] = (await phone.page.getByRole('link', { name }).first().getAttribute('href')) ?? '';
    }
  });

  it('drawing blood, and the wrong bottle said where the button is', async () => {
    await stand('Brambling');
    await inSight(phone, 'draw', [/[\d.]+ mL at least [\d.]+ mL at most [\d.]+ mL/]);
    await phone.saysNot(/whole into the sharps box/);
    await phone.press('✓ Drawn, usable');
    await inSight(phone, 'start, bottle not said', [/Say first what the conjugate bottle says/]);
    await phone.choose('It says something else');
    await phone.type('What the bottle says', 'OTHER-1');
    await inSight(phone, 'start, wrong bottle', [/bottle OTHER-1/, /do not belong together/]);
    expect(await phone.button('Right box. Next').isDisabled()).toBe(true);
    await phone.choose('The bottle says');
    await inSight(phone, 'start', [/kit DEMO-\S+ bottle DEMO-\S+/]);
    await phone.press('Right box. Next');
  });

  it('the needle goes to the sharps box once its drops are used, not before (Verifies: ROUND-R35)', async () => {
    await inSight(phone, 'kit steps', [/blood 0\/\d conjugate 0\/\d lot DEMO/]);
    await phone.saysNot(/whole into the sharps box/);
    await phone.pressAway(phone.page.locator('button.drops:not([disabled])', { hasText: 'blood' }));
    await inSight(phone, 'kit steps, blood used', [/whole into the sharps box now/, /blood (\d)\/\1/]);
    await phone.runKit();
    await phone.says('Roundworm treatment');
    await inSight(phone, 'give, one test', [/0\.\d+ mL/, lot]);
  });

  it('a double tap gives one dose, and presses nothing of what comes then (Verifies: ROUND-R17)', async () => {
    const before = await phone.records('treatment-given');
    await phone.tapTwice('✓ Given as drawn', 'a test is running');
    await phone.ready(/^Next: /).waitFor();
    await phone.says('Brambling: a test is running');
    expect(await phone.records('treatment-given')).toBe(before + 1);
  });

  it('with four tests running', async () => {
    for (const name of ['Serin', 'Siskin', 'Twite']) {
      await stand(name);
      await weighIfAsked();
      await phone.says('Blood first: FeLV test');
      if (name === 'Twite') await inSight(phone, 'draw, three tests', [/at least/]);
      await phone.press('✓ Drawn, usable');
      await phone.choose('The bottle says');
      await phone.press('Right box. Next');
      if (name === 'Twite') await inSight(phone, 'kit steps, three tests', [/blood 0\/\d/, /lot DEMO/]);
      await phone.runKit();
      await phone.says('Roundworm treatment');
      if (name === 'Twite') await inSight(phone, 'give, four tests', [/0\.\d+ mL/, lot]);
      await phone.press('✓ Given as drawn');
      await phone.says(`${name}: a test is running`);
    }
    // The receipt begins with what it is for, and none of it is cut off.
    const receipt = phone.page.locator('.just-recorded .line');
    expect(await receipt.first().textContent()).toMatch(/^✓\s*0\.\d+\smL · lot DEMO-\S+ · /);
    await inSight(phone, 'done, four tests', []);
    await phone.open(`${at.Twite}/weigh`);
    await inSight(phone, 'weigh, four tests', [/last \d+ g/, /Type what the scale says/]);
    await phone.type(/Weight on the scale/, '583');
    await inSight(phone, 'weight typed, four tests', [/583 g/]);
    await phone.open(`/round/${round}/hand-back`);
    await inSight(phone, 'hand back, four tests', [/\d+ done · \d+ not done · \d+ open/, /Read these first: /]);
    await phone.open(`/round/${round}/section/kittens-b/leave`);
    await inSight(phone, 'leave, four tests', [/Read these first: /, /stays wet for \d+ minutes/]);
  });

  it('reading, before its window and in it', async () => {
    await toReading('Brambling');
    await phone.says(/^Wait/);
    await inSight(phone, 'read, too early', [/\d:\d\d/, lot]);
    await clock.pass(8, 5);
    await inSight(phone, 'read', [/open \d:\d\d/, lot, /For each mark, say whether you see it/]);
    for (const name of ['Brambling', 'Serin', 'Siskin', 'Twite']) {
      if (name !== 'Brambling') await toReading(name);
      await phone.see({ control: 'seen', antigen: 'not seen', invalid: 'not seen' });
      await phone.press('✓ Record this reading');
      await phone.says(/Only the control mark is there/);
    }
  });

  it('leaving, and at the next door the time that the cart stays wet', async () => {
    await phone.open(`/round/${round}/section/kittens-b/leave`);
    await inSight(phone, 'leave', [/stays wet for \d+ minutes/, /Still to do: /]);
    await phone.goOut();
    await phone.says('Sections, in this order');
    await clock.pass(1);
    await phone.open(`/round/${round}/section/ward`);
    await phone.says('At the door: Adult ward');
    await inSight(phone, 'door, cart wet', [/stay wet \d:\d\d/, /Touch each when it is on/]);
    await phone.goIn(['gloves']);
  });

  it('an adult is told what is for adults, and what the hand does first (Verifies: DOSE-R50)', async () => {
    const lapwing = phone.page.getByRole('link', { name: 'Lapwing' }).first();
    at.Lapwing = (await lapwing.getAttribute('href')) ?? '';
    await stand('Lapwing');
    await inSight(phone, 'give', [/Take the needle off before it touches the animal/, /0\.3\d mL/, lot]);
    await phone.saysNot(/under 8 weeks/);
    await phone.saysNot(/whole tube/);
    await phone.says(/Keep from being licked/);
    await phone.lookAt('give');
  });

  it('a chip, from the pack to the last scan', async () => {
    await phone.open(`/round/${round}/section/ward/leave`);
    await phone.goOut();
    await phone.says('Sections, in this order');
    await clock.pass(1);
    await phone.open(`/round/${round}/section/intake`);
    await phone.says('At the door: Intake');
    await phone.goIn(['gloves']);
    await phone.turnTo('Nightjar');
    // No chip and one mark: it goes on a word with its reason.
    await phone.press('Override…');
    await phone.choose('no chip, and marks like');
    await phone.press('It is Nightjar, go on');
    await phone.press('Not given…');
    await phone.says('Say why first.');
    await phone.choose('refused or escaped');
    await phone.press('Record as not given');
    await phone.press(/^None found in/);
    await phone.says(/the chip in its pack/);
    // One save at a time: the scan comes when the one before it is kept and sent.
    await phone.isSent();
    await phone.drawn();
    await phone.scan(freshChip);
    await phone.says(/Implant 900/);
    await inSight(phone, 'chip, implant', [/chip 900 000 000 304 146/]);
    await phone.press('✓ It is in');
    await phone.says(/It has to show/);
    await inSight(phone, 'chip, scan after', [/chip 900 000 000 304 146/]);
    await phone.open(`/round/${round}/hand-back`);
    await inSight(phone, 'hand back', [/done/, /Scan the chip again first: Nightjar/]);
  });
});

/** In front of an animal, made sure of by the chip that its record names, or by its marks. */
async function stand(name: string): Promise<void> {
  // Who is in the hands is whoever was made sure of last: time passes between two animals.
  await clock.pass(0, 20);
  await phone.open(at[name] ?? '');
  await phone.freshGloves();
  const chip = phone.page.locator('.animal-head .mono').first();
  if ((await chip.count()) === 0) await phone.compareMarks(name);
  else await phone.scan(((await chip.textContent()) ?? '').replace(/\D/g, ''));
  await phone.says(/^identified by/);
}

/** Some weights of the demo are too old to dose on; what was weighed last is weighed again. */
async function weighIfAsked(): Promise<void> {
  const scale = phone.page.getByLabel(/Weight on the scale/);
  await scale.or(phone.page.getByText('Blood first: FeLV test')).first().waitFor();
  if ((await scale.count()) === 0) return;
  const last = (await phone.page.locator('.in-sight').textContent()) ?? '';
  await scale.first().fill(/\d+/.exec(last)?.[0] ?? '');
  await phone.press('✓ Record this weight');
}

async function toReading(name: string): Promise<void> {
  await phone.open(at[name] ?? '');
  await phone.page.locator('.state-link').first().click();
}
