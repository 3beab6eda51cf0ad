import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { beginRound } from './pages/round-begin.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
/** A chip of the demo's youngest box that is in no animal, one that Serin carries, and a pair on no list: invented. */
const fromBox = '900000000304146';
const serins = '900000000204289';
const pack = '900000000205519';
const readAfter = '900000000205518';

/**
 * One number of each kind that no animal should carry. Sources: ICAR, Misuse page (999, 000, 981 with 804, animal flag
 * 0); ISO 3166-1 numeric (895 is nobody's); ISO/DIS 11785 Annex A (ten characters that no pet chip has).
 */
const refused = {
  '999000000112233': /begins with 999: a test number.*Do not implant/,
  '000112006831826': /begins with 000, which is not a valid chip number/,
  '981804000000001': /cannot exist/,
};
const pointedOut = {
  '000982000001088420': /does not say that it is in an animal/,
  '895112006831826': /prefix 895 belongs to no country and no manufacturer/,
  '0F0368568B': /an access tag/,
  '900155000101234': /known for misuse or double numbers/,
};

const shelter = openShelter('chip', start);
let { phone, desk }: Opened = {} as Opened;

beforeAll(() => {
  ({ phone, desk } = shelter());
});

const look = async (name: string): Promise<void> => {
  await phone.lookAt(name);
  if (process.env.ROUNDHAND_LOOK === undefined) return;
  for (const [width, height] of [
    [390, 844],
    [320, 568],
  ] as const) {
    await phone.page.setViewportSize({ width, height });
    await phone.page.screenshot({ path: `${process.env.ROUNDHAND_LOOK}/chip-${name}-${width}.png` });
  }
  await phone.page.setViewportSize({ width: 390, height: 844 });
};

/** The three scans of one chip, and everything that can be wrong with a number on the way. */
describe.sequential('a chip, at the cage', () => {
  it('a test number read on an animal is said and kept, and one mark proves nothing', async () => {
    await beginRound(phone, ['Intake']);
    await phone.press('Go to Intake');
    await phone.goIn(['gloves']);
    await phone.turnTo('Nightjar');
    await phone.says(/Fewer than two marks of Nightjar/);
    expect(await phone.page.locator('main label.choice').count()).toBe(0);
    expect(await phone.button('Compare marks').count()).toBe(0);
    await phone.scan('999000000112233');
    await phone.says(/is on nobody’s record, and Nightjar has none/);
    await phone.says(/begins with 999: test numbers/);
    await look('unknown-test-number');
    await phone.press('Override…');
    await phone.choose('another reason');
    await phone.press('It is Nightjar, go on');
    await phone.press('Not given…');
    await phone.choose('refused or escaped');
    await phone.press('Record as not given');
    await phone.says(/A chip was read in this animal: 999/);
    await phone.says('No second chip.');
    expect(await phone.button('None found in 2 passes').count()).toBe(0);
    await look('read-in-it');
    await phone.press('It was another cat’s, or misread');
    await phone.press('None found in 2 passes');
    await phone.says(/the chip in its pack/);
  });

  it('refuses at the pack what must not go in, and says what is wrong with the rest', async () => {
    const before = await phone.records('chip-scanned');
    for (const [number, words] of Object.entries(refused)) {
      await phone.scan(number);
      await phone.says(words);
    }
    await phone.scan(serins);
    await phone.says(/is on Serin’s record/);
    expect(await phone.records('chip-scanned')).toBe(before);
    for (const [number, words] of Object.entries(pointedOut)) {
      await phone.scan(number);
      // A short number counts only when the same came twice.
      if (number.length < 15) {
        await phone.says(/Scan again: it counts when the same comes twice/);
        await phone.scan(number);
      }
      await phone.says(words);
      await phone.says(/not on the list of any box/);
      // One save at a time: the next scan comes when this one is kept and sent.
      await phone.isSent();
    }
    await look('pack-doubtful');
  });

  it('a dropped chip is counted; one that fell out is looked for with a reader that reads', async () => {
    await phone.scan(fromBox);
    await phone.says(/Implant 900/);
    await phone.settles(/not on the list of any box/);
    await phone.press('✓ It is in');
    await phone.says(/It has to show/);
    // Whoever turns away now is told of it, on the list and at the door (Verifies: ROUND-R108).
    await phone.page.locator('a[href*="/section/"]').first().click();
    await phone.says('chip in, not read: scan it');
    await phone.press('Leave this section');
    await phone.says(/A chip is in Nightjar, and it was not read since/);
    await phone.lookAt('leaving with a chip that was not read');
    await phone.press('To Nightjar');
    await phone.says(/It has to show/);
    await phone.press('Nothing is read');
    await phone.says(/Has 900.* fallen out/);
    await look('nothing-read');
    await phone.press('It is seen outside the animal');
    await phone.says(/Do you see chip 900.* outside Nightjar/);
    await look('seen-outside');
    await phone.press('No, go back');
    await phone.press('It reads nothing there either');
    await phone.says(/Then the reader is at fault/);
    await phone.scan(serins);
    await phone.says(/The reader reads. Now scan all of Nightjar again/);
    await phone.press('Nothing is read');
    await phone.says(/The reader reads, and Nightjar shows no chip/);
    await look('gone');
    await phone.press('Discarded: fresh needle and chip');
    await phone.says(/the chip in its pack/);
    await phone.scan(fromBox);
    await phone.says(/was discarded. Take another pack/);
  });

  it('another number than the one implanted is a full stop with both numbers (Verifies: CHIP-R14)', async () => {
    await phone.scan(pack);
    await phone.says(/Implant 900/);
    await phone.press('✓ It is in');
    await phone.says(/It has to show/);
    // A number that nobody knows does not prove the reader: it is a scan of the cat (Verifies: CHIP-R34).
    await phone.press('Nothing is read');
    await phone.says(/Has 900.* fallen out/);
    await phone.scan(readAfter);
    await phone.says('Stop. Another chip than the one implanted.');
    expect(await phone.button('Discarded: fresh needle and chip').count()).toBe(0);
    await phone.press('Scan again');
    await phone.says(/It has to show/);
    await phone.press('Nothing is read');
    await phone.says('Stop. Another chip than the one implanted.');
    await phone.says('They differ in one sign: place 15.');
    expect(await phone.page.locator('.chip-sign.differs').allTextContents()).toEqual(['9', '8']);
    expect(await phone.page.getByText('Core vaccine').count()).toBe(0);
    await look('differs');
    // The stop is on the record: it stands there again after a reload.
    await phone.page.reload();
    await phone.says('Stop. Another chip than the one implanted.');
    await phone.press('Another cat is on the table');
    await phone.says('Stop. This is not Nightjar.');
    await look('another-cat');
    await phone.press('Override…');
    await phone.choose('another reason');
    // The number that was read has to be answered for.
    await phone.choose(/was read here/);
    await phone.press('It is Nightjar, go on');
    // The number was read here: two numbers, and the way on is to scan again.
    await phone.says('Stop. Nightjar shows two chip numbers.');
    await phone.press('Scan the chip again');
    await phone.says(/It has to show/);
    await phone.scan(readAfter);
    await phone.says('Stop. Another chip than the one implanted.');
    await phone.press('Scan again');
    await phone.says(/It has to show/);
    await phone.scan(pack.slice(0, 9));
    await phone.says(/Cut, scan again/);
    await phone.scan(readAfter);
    await phone.press('Keep both, tell the desk');
    // The stop stays: nothing is given before somebody who is named says so (Verifies: ROUND-R97).
    await phone.says('Stop. Nightjar shows two chip numbers.');
    expect(await phone.page.getByText('Core vaccine').count()).toBe(0);
    await phone.page.reload();
    await phone.says('Stop. Nightjar shows two chip numbers.');
    await look('two-numbers');
    await phone.press('Somebody says to go on …');
    await phone.choose('Ada Quill');
    await phone.choose('by telephone');
    await phone.page.getByLabel('Why').fill('The vaccine does not wait for the chip.');
    await phone.press('Go on, on this word');
    await phone.says('Core vaccine');
    await phone.says(/not trusted: two numbers/);
  });

  it('the desk has all of it', async () => {
    await phone.isSent();
    await desk.workAs('Ada Quill');
    await desk.open('/flags');
    await desk.says(/Doubtful chip number/);
    await desk.says(/begins with 999: test numbers/);
    await desk.says(/Chip from no box/);
    await desk.says(/Chip not found/);
    await desk.says(/Chip 900000000205519 was implanted, 900000000205518 was read/);
    await desk.lookAt('flags of chips');
  });

  it('and says what is wrong with a number on arrival and at any scan', async () => {
    await desk.scan('895112006831826');
    await desk.says(/No animal here carries the chip/);
    await desk.says(/prefix 895 belongs to no country/);
    await desk.open('/animals/new');
    await desk.says('Found on arrival');
    await desk.scan('000982000001088420');
    await desk.says(/does not say that it is in an animal/);
    await desk.scan('900000000');
    await desk.says(/Cut, scan again/);
    await desk.lookAt('chip on arrival');
  });
});
