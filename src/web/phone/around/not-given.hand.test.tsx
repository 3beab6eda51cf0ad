import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { NotGivenSheet } from './not-given.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const reason = (id: 'refused-or-escaped' | 'ran-out-of-time' | 'animal-ill') =>
  page.getByRole('radio', { name: say(`not-given.${id}`), exact: true });

function cage(log = roundLog({ 'kit-1': ['roundworm'] }), schedule = 'roundworm') {
  const onClose = vi.fn();
  const at = atTheCage(log, ({ stop, line }) => <NotGivenSheet stop={stop} line={line} onClose={onClose} />, {
    schedule,
  });
  return { at, onClose };
}

describe('something that is not done', () => {
  it('has one reason, the last one chosen, and is written down once', async () => {
    const { at, onClose } = cage();
    const { written } = await at;
    const record = button(say('round.not-given.record'));
    await expect.element(record).toBeDisabled();
    await page.getByText(say('not-given.ran-out-of-time'), { exact: true }).click();
    await page.getByText(say('not-given.refused-or-escaped'), { exact: true }).click();
    await expect.element(reason('ran-out-of-time')).not.toBeChecked();
    await record.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({
      kind: 'treatment-not-given',
      body: { schedule: 'roundworm', reason: 'refused-or-escaped' },
    });
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
  });

  it('says before it is recorded who will be told of an ill animal', async () => {
    const { at } = cage();
    await at;
    const notices = () => page.getByRole('dialog').element().textContent ?? '';
    await expect.element(page.getByRole('dialog')).toBeVisible();
    const before = notices();
    await page.getByText(say('not-given.animal-ill'), { exact: true }).click();
    await expect.poll(() => notices().length).toBeGreaterThan(before.length);
  });

  it('of blood that was drawn ends its run, so that no clock waits for it', async () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    drawn(log, 1, '13:35');
    const { at } = cage(log, 'felv-test');
    const { kinds } = await at;
    await page.getByText(say('not-given.ran-out-of-time'), { exact: true }).click();
    await button(say('round.not-given.record')).click();
    await expect.poll(kinds).toEqual(['test-abandoned']);
  });

  it('is left by Escape, and nothing is written down', async () => {
    const { at, onClose } = cage();
    const { written } = await at;
    await expect.element(page.getByRole('dialog')).toBeVisible();
    await userEvent.keyboard('{Escape}');
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect(await written()).toEqual([]);
  });
});
