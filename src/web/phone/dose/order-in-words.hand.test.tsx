import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../../test/support/on-page.js';
import { starterFormulary as formulary } from '../../../../test/support/shelter-log.js';
import { doseOf } from '../../../core/dosing/dose.js';
import { say } from '../../../words/say.js';
import { OrderInWordsSheet } from './order-in-words.js';

function sheet(onGiven = vi.fn(async () => true)) {
  const product = formulary.products.find(({ id }) => id === 'saline-0-9');
  if (product === undefined) throw new Error('no saline');
  const now = '2026-03-01T13:40:00.000Z';
  const dose = doseOf({
    ...{ product, formulary, now, today: '2026-03-01', inWords: '60 mL under the skin' },
    weighing: { grams: 620, at: now, doubtful: false },
    ageDays: { youngest: 40, oldest: 40 },
    syringes: formulary.syringes.map(({ id }) => id),
  } as never);
  const onClose = vi.fn();
  onPage(
    <OrderInWordsSheet
      product={product}
      dose={dose}
      words="60 mL under the skin"
      held={[]}
      state={{ is: 'idle' }}
      onHeld={() => undefined}
      onClose={onClose}
      onGiven={onGiven}
    />,
  );
  return { onGiven, onClose };
}
const record = () => page.getByRole('button', { name: say('round.different.record'), exact: true });

describe('an order whose amount is words', () => {
  it('says why nothing can be recorded while nobody has said how much it was', async () => {
    const { onGiven } = sheet();
    await expect.element(record()).toBeDisabled();
    await expect.element(record()).toHaveAccessibleDescription(new RegExp(say('round.why.amount')));
    expect(onGiven).not.toHaveBeenCalled();
  });

  it('fills nothing in, and gives on what was typed', async () => {
    const { onGiven, onClose } = sheet();
    await page.getByText(say('round.in-words.by.pieces'), { exact: true }).click();
    const pieces = page.getByRole('textbox', { name: say('round.in-words.pieces') });
    await expect.element(pieces).toHaveValue('');
    await pieces.fill(' half a sachet ');
    await page.getByText(say('round.outcome.partly-taken'), { exact: true }).click();
    await record().dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect(onGiven.mock.calls).toEqual([[{ volume_ul: null, pieces: 'half a sachet', outcome: 'partly-taken' }]]);
  });

  it('stays open with all that was typed when it could not be written down', async () => {
    const { onGiven, onClose } = sheet(vi.fn(async () => false));
    await page.getByText(say('round.in-words.by.volume'), { exact: true }).click();
    const volume = page.getByRole('textbox', { name: new RegExp(say('round.in-words.volume')) });
    await volume.fill('4 mL');
    await record().click();
    await expect.poll(() => onGiven.mock.calls.length).toBe(1);
    await expect.element(volume).toHaveValue('4 mL');
    expect(onClose).not.toHaveBeenCalled();
  });
});
