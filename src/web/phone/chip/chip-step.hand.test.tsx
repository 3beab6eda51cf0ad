import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { ChipStep } from './chip-step.js';

const [chip, other] = ['900000000000017', '900000000000018'];
const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
const heading = (step: number) => page.getByRole('heading', { name: say('round.chip.title', { step }) });

const cage = () =>
  atTheCage(roundLog({ 'kit-1': ['chip'] }), ({ stop, line }) =>
    line.state === 'open' || line.state === 'part' ? <ChipStep stop={stop} line={line} /> : <p>{line.state}</p>,
  );

describe('a chip', () => {
  it('is read three times, and only the press between says that it is in', async () => {
    const { written, kinds } = await cage();
    await page.getByRole('button', { name: `More: ${say('round.chip.passes')}` }).click();
    await button(say('round.chip.none-found', { passes: 3 })).click();
    await expect.element(heading(2)).toBeVisible();
    scans.hear(chip);
    await expect.element(heading(3)).toBeVisible();
    expect(await kinds()).toEqual(['chip-scanned', 'chip-scanned']);
    await button(say('round.chip.it-is-in')).dblClick();
    await expect.element(heading(4)).toBeVisible();
    scans.hear(chip);
    await expect.element(page.getByText('done', { exact: true })).toBeVisible();
    expect(await kinds()).toEqual(['chip-scanned', 'chip-scanned', 'chip-implanted', 'chip-scanned']);
    const [before, pack, implanted, after] = await written();
    expect(before?.body).toMatchObject({ occasion: 'before', found: null, passes: 3 });
    expect(pack?.body).toMatchObject({ occasion: 'pack', found: { code: chip } });
    expect(implanted?.body).toMatchObject({ code: chip, packScan: pack?.id });
    expect(after?.body).toMatchObject({ occasion: 'after', found: { code: chip } });
  });

  it('does not go into an animal in which one was read', async () => {
    const { kinds } = await cage();
    await expect.element(heading(1)).toBeVisible();
    scans.hear(other);
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(button(say('round.chip.it-is-in'))).not.toBeInTheDocument();
    await button(say('round.chip.no-second')).click();
    await expect.poll(async () => (await kinds()).length).toBe(2);
    expect(await kinds()).not.toContain('chip-implanted');
  });

  it('another number after it is in is no end of the work', async () => {
    const { kinds } = await cage();
    await button(say('round.chip.none-found', { passes: 2 })).click();
    await expect.element(heading(2)).toBeVisible();
    scans.hear(chip);
    await button(say('round.chip.it-is-in')).click();
    await expect.element(heading(4)).toBeVisible();
    scans.hear(other);
    await expect.poll(async () => (await kinds()).length).toBe(4);
    await expect.element(page.getByText('done', { exact: true })).not.toBeInTheDocument();
  });

  it('a number that is cut off is refused aloud and not written down, and the step stays', async () => {
    const { written } = await cage();
    await button(say('round.chip.none-found', { passes: 2 })).click();
    await expect.element(heading(2)).toBeVisible();
    scans.hear(chip.slice(0, 12));
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(heading(2)).toBeVisible();
    expect(await written()).toHaveLength(1);
  });

  it('takes two scans that come in one breath one after the other, each for its own step', async () => {
    const { written } = await cage();
    await button(say('round.chip.none-found', { passes: 2 })).click();
    await expect.element(heading(2)).toBeVisible();
    scans.hear(chip);
    scans.hear(chip);
    await expect.element(heading(3)).toBeVisible();
    await expect.poll(async () => (await written()).length).toBeGreaterThanOrEqual(2);
    for (const { body } of (await written()).slice(1)) expect(body).toMatchObject({ occasion: 'pack' });
    await expect.element(button(say('round.chip.it-is-in'))).toBeVisible();
  });
});
