import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { stopOf } from '../around/use-round.js';
import { Identify } from './identify.js';

const [own, others, nobodys] = ['900000000000017', '900000000000018', '900000000000019'];
const button = (name: string) => page.getByRole('button', { name, exact: true });
const typed = page.getByRole('textbox', { name: say('round.identify.typed') });

/** Two kittens with a chip each on record. */
function cage(second = others) {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
  for (const [kit, code] of [
    [1, own],
    [2, second],
  ] as const) {
    const found = { raw: code, code, class: 'iso' };
    const scan = { target: 'animal', occasion: 'intake', found, passes: 1, reader: '', round: null };
    log.one('chip-scanned', `animal:kit-${kit}`, scan as never, when('10:31'));
  }
  return atTheCage(log, ({ around, stop }) => {
    const at = stopOf(around.view, stop.animal.id)?.at;
    if (at === undefined) return null;
    return stop.identified === null ? <Identify stop={stop} at={at} /> : <p>made sure of</p>;
  });
}

describe('which animal is this', () => {
  it('is answered by its own chip, from the reader', async () => {
    const { kinds, written } = await cage();
    await expect.element(typed).toBeVisible();
    scans.hear(own);
    await expect.element(page.getByText('made sure of')).toBeVisible();
    expect(await kinds()).toEqual(['chip-scanned', 'animal-identified']);
    expect((await written())[0]).toMatchObject({ body: { typed: false, told: 'match' } });
  });

  it('stops at another animal’s chip: nothing is made sure of, and the stop stands until it is answered', async () => {
    const { kinds } = await cage();
    await expect.element(typed).toBeVisible();
    scans.hear(others);
    const stop = page.getByRole('alertdialog');
    await expect.element(stop).toBeVisible();
    await expect.element(stop).toHaveTextContent('Kit 2');
    expect(await kinds()).toEqual(['chip-scanned']);
    await button(say('round.wrong.again')).click();
    await expect.element(stop).not.toBeInTheDocument();
    scans.hear(own);
    await expect.element(page.getByText('made sure of')).toBeVisible();
    expect(await kinds()).toEqual(['chip-scanned', 'chip-scanned', 'animal-identified']);
  });

  it('a number on nobody’s record is no proof of an animal that has another one', async () => {
    const { kinds } = await cage();
    await expect.element(typed).toBeVisible();
    scans.hear(nobodys);
    await expect.element(page.getByRole('alertdialog')).toBeVisible();
    expect(await kinds()).toEqual(['chip-scanned']);
  });

  it('its own number, which another animal has on record as well, tells neither: both are named', async () => {
    const { kinds } = await cage(own);
    await expect.element(typed).toBeVisible();
    scans.hear(own);
    await expect.element(page.getByRole('alert')).toHaveTextContent(/Kit 1.*Kit 2/);
    await expect.element(page.getByText('made sure of')).not.toBeInTheDocument();
    expect(await kinds()).toEqual(['chip-scanned']);
  });

  it('a typed number that is not whole says why, is not written down, and stays to be put right', async () => {
    const { written } = await cage();
    await typed.fill('90000000000001');
    await button(say('round.chip.use-typed')).click();
    await expect.element(page.getByRole('alert')).toBeVisible();
    expect(await written()).toEqual([]);
    await expect.element(typed).toHaveValue('90000000000001');
    await expect.element(button(say('round.chip.use-typed'))).not.toHaveAttribute('data-held');
    await typed.fill(own);
    await button(say('round.chip.use-typed')).click();
    await expect.element(page.getByText('made sure of')).toBeVisible();
    expect((await written())[0]).toMatchObject({ kind: 'chip-scanned', body: { typed: true } });
  });
});
