import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../test/support/at-the-cage.js';
import { drawn, roundLog, started } from '../../../test/support/round-log.js';
import { say } from '../../words/say.js';
import { RunningStrip } from './running-strip.js';

/** Two tests that were started at 13:41 and 13:45; each is read some eight minutes later. */
function cage(at: string) {
  const log = roundLog({ 'kit-1': ['felv-test'], 'kit-2': ['felv-test'] });
  for (const [kit, time] of [
    [1, '13:41'],
    [2, '13:45'],
  ] as const) {
    drawn(log, kit, '13:40');
    started(log, kit, time);
  }
  return atTheCage(log, ({ around }) => <RunningStrip round={around.round} />, { at });
}
const strip = page.getByRole('region', { name: say('round.threads') });

describe('tests that run', () => {
  it('stand in one row, the next to be read in it, and a press shows the others and puts them away', async () => {
    await cage('13:46');
    await expect.element(strip.getByRole('link')).toHaveTextContent(/Kit 1/);
    const more = page.getByRole('button', { name: say('round.threads-more', { count: 1 }) });
    await more.click();
    await expect.element(strip.getByRole('link', { name: /Kit 2/ })).toBeVisible();
    await page.getByRole('button', { name: say('round.threads-fewer') }).click();
    await expect.element(strip.getByRole('link', { name: /Kit 2/ })).not.toBeInTheDocument();
  });

  it('one whose window opens is an alarm, and a press on it leads to its reading', async () => {
    const { itIs, places } = await cage('13:46');
    await expect.element(strip).toBeVisible();
    expect(page.getByRole('alert').elements()).toEqual([]);
    itIs('13:50');
    const alarm = page.getByRole('alert');
    await expect.element(alarm).toHaveTextContent(/Kit 1/);
    await alarm.click();
    await expect.poll(() => places.at(-1)).toBe('/round/round-1/animal/kit-1/read/run-1');
  });

  it('fit beside each other on the smallest phone, with keys that a thumb meets', async () => {
    await page.viewport(320, 568);
    await cage('13:46');
    await expect.element(strip).toBeVisible();
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    for (const button of strip.getByRole('button').elements()) {
      expect(button.getBoundingClientRect().height).toBeGreaterThanOrEqual(44);
    }
    await page.viewport(390, 844);
  });
});
