import { beforeEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { weighGroups } from '../../../log/views/round/weigh-groups.js';
import { say } from '../../../words/say.js';
import { WeighLitter } from './weigh-litter.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const keep = button(say('drawup.weigh.keep'));
const shows = page.getByRole('status').first();
const tap = async (keys: string): Promise<void> => {
  for (const key of keys) await button(key).click();
};
beforeEach(() => localStorage.removeItem('roundhand.scale'));

/** Three kittens of some 600 g in one room. */
function cage() {
  const log = roundLog({ 'kit-1': ['weighing'] });
  for (const kit of [1, 2, 3]) {
    log.one('animal-weighed', `animal:kit-${kit}`, { grams: 600, entered: '600 g' }, when('10:05'));
  }
  return atTheCage(log, ({ around }) => <WeighLitter params={{ group: weighGroups(around.world)[0]?.key ?? '' }} />);
}

describe('a litter on the scale', () => {
  it('keeps each weight under the animal that is shown, and goes on to the next by itself', async () => {
    const { written } = await cage();
    await expect.element(keep).toBeDisabled();
    await tap('612');
    await expect.element(shows).toHaveTextContent('612');
    await keep.dblClick();
    await expect.element(shows).not.toHaveTextContent('612');
    await tap('608');
    await keep.click();
    await expect.poll(async () => (await written()).length).toBe(2);
    expect((await written()).map(({ subject, body }) => [subject, (body as { grams: number }).grams])).toEqual([
      ['animal:kit-1', 612],
      ['animal:kit-2', 608],
    ]);
  });

  it('takes off what stands on the scale before the animal, and no weight below it', async () => {
    const { written } = await cage();
    await tap('250');
    await button(say('drawup.weigh.tare')).click();
    await tap('200');
    await expect.element(keep).toBeDisabled();
    await expect.element(page.getByText(say('drawup.weigh.under-tare'))).toBeVisible();
    for (let sign = 0; sign < 3; sign += 1)
      await page
        .getByRole('button', { name: /delete|last|back/i })
        .first()
        .click();
    await tap('862');
    await keep.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ grams: 612, tare_g: 250 });
  });

  it('says of one that does not fit that it does not, and stays with that animal for the second weighing', async () => {
    const { written } = await cage();
    await tap('900');
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(keep).not.toBeInTheDocument();
    await button(say('round.weigh.keep-and-again')).click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ subject: 'animal:kit-1', body: { grams: 900, doubtful: true } });
    await tap('612');
    await page
      .getByRole('button', { name: new RegExp(`^(${say('drawup.weigh.keep')}|${say('round.weigh.keep-and-again')})$`) })
      .click();
    await expect.poll(async () => (await written()).length).toBe(2);
    expect((await written())[1]?.subject).toBe('animal:kit-1');
  });

  it('has keys that a glove meets, and all of them beside each other at 320 px', async () => {
    await page.viewport(320, 568);
    await cage();
    await expect.element(button('5')).toBeVisible();
    for (const key of '1234567890') {
      const { width, height } = button(key).element().getBoundingClientRect();
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(48);
    }
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    await page.viewport(390, 844);
  });
});
