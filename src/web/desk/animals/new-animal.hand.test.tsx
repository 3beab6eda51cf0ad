import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { NewAnimal } from './new-animal.js';

const field = (name: string) => page.getByRole('textbox', { name, exact: true });
const take = page.getByRole('button', { name: say('desk.new.take-in'), exact: true });
const name = field(say('desk.animal.name'));
const chip = field(say('desk.animal.chip'));
const weeks = field(say('desk.birth.weeks'));
const weight = page.getByRole('textbox', { name: new RegExp(say('desk.animal.weight')) });
const [carried, free] = ['900000000000017', '900000000000018'];

/** The desk on the day of arrival; Kit 1 has a chip. */
function desk() {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  const found = { raw: carried, code: carried, class: 'iso' };
  const scan = { target: 'animal', occasion: 'intake', found, passes: 1, round: null };
  log.one('chip-scanned', 'animal:kit-1', scan as never, when('10:31'));
  return atTheCage(log, () => <NewAnimal />, { at: '16:00', by: 'sol', partner: null });
}

describe('an animal taken in', () => {
  it('is one animal with its weight and its chip, once, and the page goes on to its record', async () => {
    const { written, places } = await desk();
    await expect.element(take).toBeDisabled();
    await expect.element(page.getByText(say('desk.new.needs-birth'))).toBeVisible();
    await name.fill('Ash');
    await weeks.fill('6');
    await weight.fill('610');
    scans.hear(free);
    await expect.element(chip).toHaveValue(free);
    await take.dblClick();
    await expect.poll(() => places.length).toBe(2);
    const records = await written();
    expect(records.map(({ kind }) => kind)).toEqual(['animal-taken-in', 'animal-weighed', 'chip-scanned']);
    expect(new Set(records.map(({ subject }) => subject)).size).toBe(1);
    expect(records[2]?.body).toMatchObject({ found: { code: free }, typed: false });
  });

  it('with the number of an animal that is here is pointed out before there are two of one', async () => {
    await desk();
    await name.fill('Ash');
    await weeks.fill('6');
    scans.hear(carried);
    await expect.element(page.getByRole('alert')).toHaveTextContent('Kit 1');
  });

  it('a chip number cut off, a weight that is none and weeks that are no number each hold it back, in words', async () => {
    const { written } = await desk();
    await name.fill('Ash');
    await weeks.fill('six');
    await expect.element(weeks).toHaveAttribute('aria-invalid', 'true');
    await expect.element(take).toBeDisabled();
    await weeks.fill('6');
    await expect.element(take).toBeEnabled();
    await weight.fill('6oo');
    await expect.element(take).toBeDisabled();
    await expect.element(page.getByText(say('desk.new.needs-weight'))).toBeVisible();
    await weight.fill('');
    await chip.fill(free.slice(0, 12));
    await expect.element(chip).toHaveAttribute('aria-invalid', 'true');
    await expect.element(take).toBeDisabled();
    expect(await written()).toEqual([]);
  });

  it('a scan that was put right by hand counts as typed, and a name of blanks is no name', async () => {
    const { written, places } = await desk();
    await name.fill('  ');
    await weeks.fill('6');
    await expect.element(take).toBeDisabled();
    await expect.element(page.getByText(say('log.name-or-number'))).toBeVisible();
    await name.fill('Ash');
    scans.hear(carried);
    await expect.element(chip).toHaveValue(carried);
    await chip.fill(free);
    await take.click();
    await expect.poll(() => places.length).toBe(2);
    expect((await written()).at(-1)?.body).toMatchObject({ found: { code: free }, typed: true });
  });

  it('a day of birth half taken away is no day of birth: the age does not come back by itself', async () => {
    const { written } = await desk();
    await name.fill('Ash');
    await page.getByText(say('desk.birth.way.known'), { exact: true }).click();
    const born = page.getByLabelText(say('desk.birth.day'));
    await born.fill('2026-01-20');
    await expect.element(take).toBeEnabled();
    (born.element() as HTMLElement).focus();
    await userEvent.keyboard('{Delete}');
    await expect.element(take).toBeDisabled();
    await atRest();
    expect(await written()).toEqual([]);
  });
});
