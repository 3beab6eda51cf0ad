import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, roundLog, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { DrawStep } from './draw-step.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const usable = button(say('round.draw.usable'));
const volume = say('round.draw.volume');

/** A kitten of that many grams, whose blood is to be drawn. */
function cage(grams: number, drawnBefore_ul = 0) {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  log.one('animal-weighed', 'animal:kit-1', { grams, entered: `${grams} g` }, when('12:00'));
  if (drawnBefore_ul > 0) drawn(log, 1, '13:31', { volume_ul: drawnBefore_ul, usable: false });
  return atTheCage(log, ({ stop, line }) =>
    line.run?.drawnAt == null ? <DrawStep stop={stop} line={line} /> : <p>blood is there</p>,
  );
}

describe('drawing blood', () => {
  it('writes down what was drawn, once, and less than the kit wants is no usable draw', async () => {
    const { written } = await cage(1500);
    const less = button(`Less: ${volume}`);
    await expect.element(less).toBeVisible();
    while (usable.element().getAttribute('disabled') === null) await less.click();
    await expect.element(usable).toHaveAccessibleDescription(/\d/);
    await button(`More: ${volume}`).click();
    await usable.dblClick();
    await expect.element(page.getByText('blood is there')).toBeVisible();
    const records = await written();
    expect(records.map(({ kind }) => kind)).toEqual(['sample-drawn']);
    expect(records[0]?.body).toMatchObject({ schedule: 'felv-test', usable: true });
  });

  it('a draw that failed counts as blood, and the next one belongs to the same run', async () => {
    const { written } = await cage(1500);
    await button(say('round.draw.failed')).click();
    await expect.element(page.getByText(say('round.draw.failed-before', { count: 1 }))).toBeVisible();
    await usable.click();
    await expect.element(page.getByText('blood is there')).toBeVisible();
    const runs = (await written()).map(({ body }) => body as { run: string; usable: boolean });
    expect(runs.map((one) => one.usable)).toEqual([false, true]);
    expect(new Set(runs.map((one) => one.run)).size).toBe(1);
  });

  it('stops before the needle where no more may be drawn, and what was drawn already can still be said', async () => {
    const { written } = await cage(100, 400);
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(usable).not.toBeInTheDocument();
    await button(say('drawup.blood.already')).click();
    await expect.element(usable).toBeVisible();
    expect(await written()).toEqual([]);
  });
});
