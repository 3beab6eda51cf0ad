import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { blockOf, countTones, dragByTouch, orderOnDrawing, planStands } from './pages/drawing.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
const pictures = process.env.ROUNDHAND_LOOK ?? null;
const left = ['Adult ward', 'Foster homes', 'Quarantine'];

const shelter = openShelter('teams', start);
let { clock, phone, desk }: Opened = {} as Opened;
let round = '';

beforeAll(async () => {
  ({ clock, phone, desk } = shelter());
  await phone.takeDemo();
  await phone.workAs('Tove Margin');
  await desk.workAs('Ada Quill');
});

/** Who works on the round, in which teams, and what the plan makes of it. */
describe.sequential('the teams of a round', () => {
  it('plans no draw and no chip for somebody who works alone, and says for whom they wait', async () => {
    await desk.open('/rounds/prepare');
    for (const section of left) await desk.choose(section);
    await desk.says(/Nobody could be done in less than/);
    await desk.says(/out of the cold by/);
    await desk.saysNot(/Left until a second person holds/);
    await desk.pick('Holds', 'alone');
    await desk.says(/Left until a second person holds: .*Brambling/);
    await desk.settles(/out of the cold by/);
    await desk.saysNot(/Every reading is still in time/);
    await desk.lookAt('one person alone');
    await desk.pick('Holds', 'Jonas Blotter');
    await desk.settles(/Left until a second person holds/);
  });

  it('gives a section a team of its own, or says how many teams that needs', async () => {
    await desk.page.getByRole('radiogroup', { name: 'Teams of two' }).getByText('2', { exact: true }).click();
    const own = desk.page.getByRole('group', { name: /A team of its own/ });
    await own.getByText('Isolation').click();
    await desk.page.getByText('Change the order').click();
    const teamB = desk.page.getByRole('region', { name: /^Team B/ });
    await expect
      .poll(() => teamB.evaluateAll((all) => all.map((one) => one.getAttribute('aria-label'))))
      .toEqual(['Team B · Isolation']);
    await desk.lookAt('a team of its own');
    if (pictures !== null) await desk.page.screenshot({ path: `${pictures}/own-team.png`, fullPage: true });
    await own.getByText('Intake').click();
    await desk.says(/that needs at least 3 teams/);
    await own.getByText('Intake').click();
    await desk.settles(/that needs at least/);
  });

  it('keeps an order that was asked for while the page is left (Verifies: RIBBON-R13)', async () => {
    await planStands(desk);
    const [first = '', second = ''] = await orderOnDrawing(desk, 'Kitten room B');
    await blockOf(desk, first).focus();
    for (const key of ['Enter', 'ArrowRight', 'Enter']) await desk.page.keyboard.press(key);
    const kept = async () => (await orderOnDrawing(desk, 'Kitten room B')).slice(0, 2);
    await expect.poll(kept).toEqual([second, first]);
    await desk.open('/');
    await desk.says(/Prepare a round/);
    await desk.open('/rounds/prepare');
    await desk.says('Back to the shortest order');
    await expect.poll(kept).toEqual([second, first]);
  });

  it('rings on the first page when the tests of a round laid down have to leave the cold (Verifies: RIBBON-R15)', async () => {
    for (const section of [...left, 'Kitten room A']) await desk.choose(section);
    await desk.pick('Holds', 'Jonas Blotter');
    await desk.type('Starts at', '14:02');
    await desk.says(/Out of the cold by 13:32/);
    await desk.page.getByText('Start on this device now').click();
    await desk.press('Save it for the team');
    await expect.poll(() => desk.page.url()).toMatch(/\/rounds\/[0-9a-f-]+$/);
    round = /\/rounds\/([^/]+)$/.exec(desk.page.url())?.[1] ?? '';
    await desk.open('/');
    await desk.says(/An alarm sounds here at 13:32/);
    await desk.press('Switch the sound on');
    await desk.page.evaluate(countTones);
    const alarm = desk.page.getByRole('alert').filter({ hasText: 'out of the cold now' });
    // A second before its minute there is nothing to be seen or heard.
    await clock.pass(1, 59);
    expect(await alarm.count()).toBe(0);
    expect(await desk.page.evaluate(() => window.roundhandTones)).toBe(0);
    await clock.pass(0, 1);
    await alarm.waitFor();
    await expect.poll(() => desk.page.evaluate(() => window.roundhandTones ?? 0)).toBeGreaterThan(0);
    await desk.lookAt('fridge alarm on the first page');
    if (pictures !== null) await desk.page.screenshot({ path: `${pictures}/first-page-alarm.png`, fullPage: true });
    await desk.press('Heard, they are being taken out');
    await desk.says(/The alarm is quiet/);
    // Whoever looks at a phone is told as well; an answer at the desk is the desk's own.
    await phone.open('/');
    await phone.page.getByRole('alert').filter({ hasText: 'out of the cold now' }).waitFor();
    await phone.lookAt('fridge alarm on the first page of a phone');
    if (pictures !== null) await phone.page.screenshot({ path: `${pictures}/first-page-alarm-phone.png` });
    // It stands there until they are recorded as out, on whatever device.
    await phone.open(`/round/${round}`);
    await phone.page.getByRole('link', { name: /^Tests out of the cold/ }).click();
    await phone.press(/^Take \d+ out now/);
    await phone.isSent();
    await expect.poll(() => desk.page.getByText(/out of the cold now/).count()).toBe(0);
  });

  it('says before the needle that nobody holds, and the clock leaves the draw (Verifies: ROUND-R22, PLAN-R21)', async () => {
    await phone.open(`/round/${round}`);
    await phone.press('Change the team');
    await phone.page.locator('.dialog').getByText('Two people are safer').click();
    await phone.press('This is our team');
    await phone.press('Begin the round');
    await clock.pass(31);
    await phone.press('Yes, still us');
    await phone.press('Go to Kitten room B');
    await phone.goIn(['gloves']);
    await phone.turnTo('Brambling');
    await phone.scan('900000000204276');
    await phone.says('identified by its chip');
    await phone.says(/This takes two: one holds/);
    await phone.lookAt('nobody holds');
    if (pictures !== null) await phone.page.screenshot({ path: `${pictures}/nobody-holds.png` });
    await phone.open(`/round/${round}/clock`);
    await phone.says(/Left until a second person holds: .*Brambling/);
    await phone.open(`/round/${round}`);
    await phone.press(/^Tove Margin/);
    await phone.page.locator('.dialog').getByText('Jonas Blotter').last().click();
    await phone.press('This is our team');
    await phone.says('Tove Margin treats, Jonas Blotter holds.');
    await phone.open(`/round/${round}/clock`);
    await phone.says(/^Next by the plan/);
    await phone.settles(/Left until a second person holds/);
  });

  it('takes an animal to another place by touch, and names the rule that a touch would break (Verifies: RIBBON-R14)', async () => {
    await phone.open('/rounds/plan');
    await planStands(phone);
    const before = await orderOnDrawing(phone, 'Kitten room B');
    const [first = '', second = '', third = ''] = before;
    const held = await dragByTouch(phone, first, second, 0.9);
    await phone.says(`${first} before ${third}`);
    if (pictures !== null) await phone.page.screenshot({ path: `${pictures}/touch.png` });
    await held.lift();
    await expect.poll(async () => (await orderOnDrawing(phone, 'Kitten room B')).slice(0, 2)).toEqual([second, first]);
    await phone.press('Back to the shortest order');
    await expect.poll(() => orderOnDrawing(phone, 'Kitten room B')).toEqual(before);
    const told = phone.page.getByRole('alert').filter({ hasText: 'The order stays as it was.' });
    // One of the next litter inside the first litter would part it.
    const parting = await dragByTouch(phone, before[4] ?? '', second, 0.1);
    await expect.poll(() => phone.page.locator('.ribbon-landing.refused').count()).toBeGreaterThan(0);
    if (pictures !== null) await phone.page.screenshot({ path: `${pictures}/touch-refused.png` });
    await parting.lift();
    await expect.poll(() => told.textContent()).toMatch(/is handled together, with fresh gloves before the next/);
    expect(await orderOnDrawing(phone, 'Kitten room B')).toEqual(before);
    const [other = ''] = await orderOnDrawing(phone, 'Intake');
    const wrong = await dragByTouch(phone, first, other, 0.5);
    await wrong.lift();
    await expect.poll(() => told.textContent()).toMatch(new RegExp(`${first} stays in Kitten room B`));
    expect(await orderOnDrawing(phone, 'Kitten room B')).toEqual(before);
  });
});
