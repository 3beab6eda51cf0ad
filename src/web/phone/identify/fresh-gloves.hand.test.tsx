import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { entered, roundLog } from '../../../../test/support/round-log.js';
import { glovesBefore } from '../../../log/views/round/gloves.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { stopOf } from '../around/use-round.js';
import { FreshGloves } from './fresh-gloves.js';

const on = page.getByRole('button', { name: say('round.gloves.on'), exact: true });

/** The nursery has just been gone into: nobody has been touched in it yet. */
function cage() {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  entered(log);
  return atTheCage(log, ({ around, stop }) => {
    const at = stopOf(around.view, stop.animal.id)?.at;
    const wanted = at === undefined ? null : glovesBefore(around.world, around.view, at, stop.animal);
    if (at === undefined || wanted === null) return <p>ready to touch</p>;
    return <FreshGloves stop={stop} at={at} wanted={wanted} />;
  });
}

describe('fresh gloves', () => {
  it('are one press, written down once, and then the animal may be touched', async () => {
    const { written } = await cage();
    await on.dblClick();
    await expect.element(page.getByText('ready to touch')).toBeVisible();
    expect((await written()).map(({ kind, body }) => [kind, (body as { before: string }).before])).toEqual([
      ['gloves-changed', 'kit-1'],
    ]);
  });

  it('come before the scan: one that comes too early is not taken, and that is said', async () => {
    const { written } = await cage();
    await expect.element(on).toBeVisible();
    scans.hear('900000000000017');
    await expect.element(page.getByRole('alert')).toHaveTextContent(/Kit 1/);
    expect(await written()).toEqual([]);
    await expect.element(on).toBeEnabled();
  });
});
