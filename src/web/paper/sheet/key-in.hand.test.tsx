import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundId, roundLog, when } from '../../../../test/support/round-log.js';
import { codeOfLine } from '../../../log/plan/line-code.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { KeyIn } from './key-in.js';

const code = (line: number): string => codeOfLine(roundId as never, line);
const field = page.getByRole('textbox', { name: say('ribbon.key-in.code') });
const keep = page.getByRole('button', { name: say('ribbon.key-in.keep'), exact: true });
const asHead = page.getByRole('button', {
  name: say('ribbon.key-in.as-head', { treater: 'Ines', holder: 'Sol' }),
  exact: true,
});

/** Two lines of a sheet: a kitten of 620 g to be wormed, another one to be weighed. */
function desk() {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['weighing'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620 g' }, when('12:00'));
  return atTheCage(log, () => <KeyIn />, { at: '16:00', by: 'sol', partner: null });
}

describe('a paper day, keyed in', () => {
  it('a code that was misread opens nothing, says so, and stays to be put right', async () => {
    const { written } = await desk();
    await expect.element(field).toHaveFocus();
    await userEvent.keyboard('LXXXXXXX{Enter}');
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(field).toHaveValue('LXXXXXXX');
    expect(page.getByRole('heading', { level: 2 }).elements()).toEqual([]);
    expect(await written()).toEqual([]);
  });

  it('a weight is written down in the names of those on the sheet, once, and the next code is asked for', async () => {
    const { written } = await desk();
    await expect.element(field).toBeVisible();
    scans.hear(code(2));
    await expect.element(page.getByRole('heading', { name: /Kit 2/ })).toBeVisible();
    await expect.element(keep).toBeDisabled();
    await asHead.click();
    await page.getByRole('textbox', { name: new RegExp(say('desk.animal.weight')) }).fill('605');
    await keep.dblClick();
    await expect.element(page.getByText(say('ribbon.key-in.kept', { count: 1 }))).toBeVisible();
    const weighings = (await written()).filter(({ kind }) => kind === 'animal-weighed');
    expect(weighings).toHaveLength(1);
    expect(weighings[0]).toMatchObject({ subject: 'animal:kit-2', by: 'ines', with: 'sol', body: { grams: 605 } });
    await expect.element(field).toHaveValue('');
    await expect.element(field).toHaveFocus();
  });

  it('a dose that was not as printed waits for its amount, and one far from the dose for a word', async () => {
    const { written } = await desk();
    await expect.element(field).toBeVisible();
    scans.hear(code(1));
    await asHead.click();
    await page.getByText(say('ribbon.key-in.other'), { exact: true }).click();
    await expect.element(page.getByText(say('ribbon.key-in.needs-amount'))).toBeVisible();
    await expect.element(keep).toBeDisabled();
    await page.getByRole('textbox', { name: new RegExp(say('ribbon.key-in.amount')) }).fill('1,2 mL');
    await expect.element(page.getByText(say('ribbon.key-in.needs-really'))).toBeVisible();
    await expect.element(keep).toBeDisabled();
    await page.getByText(say('ribbon.key-in.really'), { exact: true }).click();
    await expect.element(keep).toBeEnabled();
    // Another amount is another question.
    await page.getByRole('textbox', { name: new RegExp(say('ribbon.key-in.amount')) }).fill('1,3 mL');
    await expect.element(keep).toBeDisabled();
    expect(await written()).toEqual([]);
  });

  it('a scan of the next line while one is open opens that one, and nothing typed goes under its animal', async () => {
    const { written } = await desk();
    await expect.element(field).toBeVisible();
    scans.hear(code(2));
    await page.getByRole('textbox', { name: new RegExp(say('desk.animal.weight')) }).fill('605');
    scans.hear(code(1));
    await expect.element(page.getByRole('heading', { name: /Kit 1/ })).toBeVisible();
    expect(page.getByText('605').elements()).toEqual([]);
    expect(await written()).toEqual([]);
  });
});
