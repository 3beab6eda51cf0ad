import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { Held } from '../../../../test/support/on-page.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { starterKit as kit } from '../../../../test/support/starter-kit.js';
import { boxesOf } from '../../../log/bedside/kit-needs.js';
import { say } from '../../../words/say.js';
import { ChooseBox, type ChosenBox } from './choose-box.js';

const radio = (name: string) => page.getByRole('radio', { name, exact: true });
const kitLot = page.getByRole('textbox', { name: say('round.box.kit-lot') });
const same = (lot: string) => page.getByText(say('round.box.bottle-same', { lot }), { exact: true });

/** One box on the shelf, whose bottle has the lot B9. */
async function cage() {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  const box = {
    of: { is: 'kit', kitType: kit.id, conjugateLot: 'B9' },
    ...{ lotText: 'K9', expires: '2026-12-31', pieces: 10 },
  };
  log.one('lot-received', 'lot:kit-9', box as never, when('08:10'), undefined, { by: 'vera' });
  const heard = vi.fn();
  await atTheCage(log, ({ around }) => (
    <Held<ChosenBox | null> begin={null} heard={heard}>
      {(value, change) => <ChooseBox kit={kit} boxes={boxesOf(around, kit)} value={value} onChange={change} />}
    </Held>
  ));
  return () => heard.mock.lastCall?.[0] as ChosenBox | null | undefined;
}

describe('which box a kit is from', () => {
  it('is no answer before the bottle was looked at', async () => {
    const last = await cage();
    await expect.element(same('B9')).toBeVisible();
    expect(last()).toBeUndefined();
    await same('B9').click();
    expect(last()).toMatchObject({ lot: 'kit-9', kitLot: 'K9', conjugateLot: 'B9' });
  });

  it('a bottle of another lot is said aloud where kit and bottle belong together', async () => {
    const last = await cage();
    await page.getByText(say('round.box.bottle-other'), { exact: true }).click();
    await page.getByRole('textbox', { name: say('round.box.bottle-lot') }).fill('B8');
    expect(last()).toMatchObject({ kitLot: 'K9', conjugateLot: 'B8' });
    await expect.element(page.getByRole('alert')).toBeVisible();
  });

  it('what was said of the bottle goes with the lot that it was said of', async () => {
    const last = await cage();
    await page.getByText(say('round.box.not-listed'), { exact: true }).click();
    await kitLot.fill('K2');
    await same('K2').click();
    expect(last()).toMatchObject({ lot: null, kitLot: 'K2', conjugateLot: 'K2' });
    await kitLot.fill('K27');
    expect(last()).toBeNull();
    await expect.element(radio(say('round.box.bottle-same', { lot: 'K27' }))).not.toBeChecked();
  });
});
