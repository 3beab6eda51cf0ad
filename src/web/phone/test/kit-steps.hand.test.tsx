import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { drawn, roundLog } from '../../../../test/support/round-log.js';
import { starterKit as kit } from '../../../../test/support/starter-kit.js';
import { say } from '../../../words/say.js';
import { KitSteps } from './kit-steps.js';

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
const next = button(say('round.kit-steps.done'));
const start = button(say('round.start.pressed'));
const drops = (of: 'conjugate' | 'sample') =>
  button(new RegExp(say(`round.drops.${of}`, { count: of === 'sample' ? kit.sampleDrops : kit.conjugateDrops })));

async function cage() {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  drawn(log, 1, '13:35');
  const heard = { start: vi.fn(async () => undefined), back: vi.fn() };
  await atTheCage(log, () => (
    <KitSteps kit={kit} lot="K27" animal="Kit 1" state={{ is: 'idle' }} onStart={heard.start} onBack={heard.back} />
  ));
  return heard;
}
const last = Math.min(kit.clockStep ?? kit.steps.length, kit.steps.length);

describe('the steps of a kit', () => {
  it('count every drop of a fast thumb and no more than the kit wants, also over a step back', async () => {
    await cage();
    await expect.element(next).toBeVisible();
    const sample = drops('sample');
    for (let tap = 0; tap < kit.sampleDrops + 2; tap += 1) (sample.element() as HTMLElement).click();
    await expect.element(sample).toBeDisabled();
    await next.click();
    await button(say('round.back')).click();
    await expect.element(sample).toBeDisabled();
    await expect.element(page.getByText(`${kit.sampleDrops}/${kit.sampleDrops}`)).toBeVisible();
  });

  it('start no clock before the drops are counted, and one clock after', async () => {
    const heard = await cage();
    for (let step = 1; step < last; step += 1) await next.click();
    await expect.element(start).toBeDisabled();
    await expect.element(start).toHaveAccessibleDescription(new RegExp(say('round.drops.first')));
    for (let tap = 0; tap < kit.sampleDrops; tap += 1) await drops('sample').click();
    for (let tap = 0; tap < kit.conjugateDrops; tap += 1) await drops('conjugate').click();
    await atRest();
    await start.dblClick();
    expect(heard.start).toHaveBeenCalledOnce();
  });

  it('a double tap on “done” passes one step, not two', async () => {
    await cage();
    await expect.element(next).toBeVisible();
    await atRest();
    (next.element() as HTMLElement).click();
    (next.element() as HTMLElement).click();
    await expect
      .element(page.getByRole('heading', { name: say('round.kit-steps.title', { step: 2, of: last }) }))
      .toBeVisible();
  });
});
