import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { onRecord } from '../../../log/bedside/on-record.js';
import { say } from '../../../words/say.js';
import { CorrectSheet } from './correct.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const amount = page.getByRole('textbox', { name: say('round.different.amount') });
const keep = button(say('round.correct.keep'));

/** A kitten that was given 0.12 mL of the wormer on this round. */
async function cage() {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620 g' }, when('12:00'));
  const given = {
    ...{ schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'by mouth' },
    ...{ round: 'round-1', outcome: 'taken', syringe: null },
  };
  const record = log.one('treatment-given', 'animal:kit-1', given as never, when('13:35'));
  const onClose = vi.fn();
  const at = await atTheCage(log, ({ around, stop }) => {
    const found = onRecord(around.world, 'kit-1', 'round-1').find(({ kind }) => kind === 'treatment-given');
    return found === undefined ? (
      <p>nothing on record</p>
    ) : (
      <CorrectSheet record={found} stop={stop} onClose={onClose} />
    );
  });
  return { ...at, onClose, record };
}

describe('what was recorded, put right', () => {
  it('by another amount is a new record that names the old one, once', async () => {
    const { written, onClose, record } = await cage();
    await expect.element(amount).toHaveValue('0.12\u00a0mL');
    await amount.fill('');
    await expect.element(keep).toBeDisabled();
    await expect.element(keep).toHaveAccessibleDescription(new RegExp(say('round.why.amount')));
    await amount.fill('0,11 mL');
    await keep.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    const records = await written();
    expect(records).toHaveLength(1);
    expect(records[0]).toMatchObject({ kind: 'treatment-given', corrects: record.id, body: { volume_ul: 110 } });
  });

  it('or did not happen at all, which takes a reason', async () => {
    const { written, onClose, record } = await cage();
    await button(say('round.correct.did-not-count')).click();
    const withdraw = button(say('round.correct.withdraw'));
    await expect.element(withdraw).toBeDisabled();
    await page.getByText(say('round.correct.reason.wrong-animal'), { exact: true }).click();
    await withdraw.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.corrects ?? JSON.stringify((await written())[0]?.body)).toContain(record.id);
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
  });

  it('is left as it is by the button that says so', async () => {
    const { written, onClose } = await cage();
    await amount.fill('9 mL');
    await button(say('round.correct.leave')).click();
    expect(onClose).toHaveBeenCalledOnce();
    expect(await written()).toEqual([]);
  });
});
