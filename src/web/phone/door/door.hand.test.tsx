import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, entered, roundLog, started, when } from '../../../../test/support/round-log.js';
import { itemText } from '../../../told/item-text.js';
import { say } from '../../../words/say.js';
import { stopOf } from '../around/use-round.js';
import { Door } from './door.js';
import { LeaveSection } from './leave.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const goIn = button(say('round.door.enter'));
const out = button(say('round.leave.out'));

/** The nursery with things to put on and to do on leaving. */
function house(schedule = 'roundworm') {
  const log = roundLog({ 'kit-1': [schedule] });
  const nursery = {
    ...{ section: 'nursery', name: 'Nursery', rank: 'clean-kittens', position: 0, kennels: ['N1'], contactMinutes: 10 },
    ...{ wear: ['wear.gloves', 'Own slippers'], leave: ['leave.gloves', 'leave.hands'] },
  };
  log.one('section-described', 'section:nursery', nursery as never, when('08:30'), undefined, { by: 'vera' });
  return log;
}
const touch = (item: string) => page.getByText(itemText(item), { exact: true }).click();

describe('the door of a section', () => {
  const atTheDoor = (log = house()) =>
    atTheCage(log, ({ around, stop }) => {
      const at = stopOf(around.view, stop.animal.id)?.at;
      return at === undefined || at.state === 'inside' ? <p>inside</p> : <Door at={at} />;
    });

  it('opens when each thing was touched, says which are not on, and keeps what was worn', async () => {
    const { written } = await atTheDoor();
    await touch('wear.gloves');
    await expect.element(goIn).toBeDisabled();
    await expect.element(goIn).toHaveAccessibleDescription(/Own slippers/);
    await touch('Own slippers');
    await goIn.dblClick();
    await expect.element(page.getByText('inside', { exact: true })).toBeVisible();
    expect((await written()).map(({ kind, body }) => [kind, (body as { worn: string[] }).worn])).toEqual([
      ['section-entered', ['wear.gloves', 'Own slippers']],
    ]);
  });

  it('takes no touch back by itself: what was put off again is missing again', async () => {
    await atTheDoor();
    for (const item of ['wear.gloves', 'Own slippers', 'wear.gloves']) await touch(item);
    await expect.element(goIn).toBeDisabled();
    await expect.element(goIn).not.toHaveAccessibleDescription(/Own slippers/);
  });
});

describe('leaving a section', () => {
  const inside = (log: ReturnType<typeof house>, schedule: string) => {
    entered(log);
    return atTheCage(log, () => <LeaveSection section="nursery" />, { schedule });
  };

  it('names what is left open, and takes a word for it and each thing that has to be done', async () => {
    const { written, places } = await inside(house(), 'roundworm');
    await touch('leave.gloves');
    await touch('leave.hands');
    await expect.element(out).toBeDisabled();
    await expect.element(out).toHaveAccessibleDescription(/Kit 1/);
    await page.getByText(say('round.leave.open-known', { animals: { list: ['Kit 1'] } }), { exact: true }).click();
    await out.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({
      kind: 'section-left',
      body: { cleaned: ['leave.gloves', 'leave.hands'] },
    });
    await expect.poll(() => places.at(-1)).toBe('/round/round-1');
  });

  it('is not possible while a test of it runs, whatever is ticked', async () => {
    const log = house('felv-test');
    drawn(log, 1, '13:32');
    started(log, 1, '13:34');
    const { written } = await inside(log, 'felv-test');
    await touch('leave.gloves');
    await touch('leave.hands');
    await expect.element(out).toBeDisabled();
    await expect.element(out).toHaveAccessibleDescription(/Kit 1/);
    expect(await written()).toEqual([]);
  });

  it('of blood that was drawn asks for the word that it is thrown away, and then ends its run', async () => {
    const log = house('felv-test');
    drawn(log, 1, '13:32');
    const { kinds } = await inside(log, 'felv-test');
    await touch('leave.gloves');
    await touch('leave.hands');
    await expect.element(out).toBeDisabled();
    await page.getByText(say('round.leave.blood-away', { animal: 'Kit 1' }), { exact: true }).click();
    await out.click();
    await expect.poll(async () => (await kinds()).includes('section-left')).toBe(true);
    expect(await kinds()).toContain('test-abandoned');
  });
});
