import { beforeEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundId, roundLog, when } from '../../../../test/support/round-log.js';
import type { LogRecord } from '../../../log/record.js';
import { say } from '../../../words/say.js';
import { GiveStep } from './give-step.js';
import { forgetShown } from './shown-before.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const asDrawn = button(say('round.give.as-drawn'));
const dialog = page.getByRole('dialog');

/** The formulary of a shelter that has two people work out every volume below a quarter of a millilitre. */
const withTwo = (record: LogRecord): LogRecord => {
  if (record.kind !== 'formulary-filed') return record;
  const volumeFloors = [{ below_ul: 250, severity: 'second-person' as const, maxMark_ul: null }];
  return { ...record, body: { formulary: { ...record.body.formulary, volumeFloors } } };
};

/** A kitten of 620 g to be wormed, or one whose weight nobody trusts. */
function cage(doubtful = false, twoPeople = false) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  const weight = { grams: 620, entered: '620 g', doubtful };
  log.one('animal-weighed', 'animal:kit-1', weight, when('12:00'));
  return atTheCage({ records: twoPeople ? log.records.map(withTwo) : log.records }, ({ stop, line }) =>
    line.state === 'open' ? <GiveStep stop={stop} line={line} /> : <p>{`line ${line.state}`}</p>,
  );
}

// What the card showed before is asked about; here each one is the first.
beforeEach(() => forgetShown(roundId, 'kit-1 roundworm'));

describe('a treatment', () => {
  it('given as drawn is written down with what stood there, once however often it is pressed', async () => {
    const { written } = await cage();
    await expect.element(asDrawn).toBeVisible();
    const shown = Number.parseFloat(document.querySelector('.in-sight .amount')?.textContent ?? '');
    await asDrawn.dblClick();
    await expect.element(page.getByText('line done')).toBeVisible();
    const records = await written();
    expect(records).toHaveLength(1);
    expect(records[0]).toMatchObject({
      kind: 'treatment-given',
      body: { schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: Math.round(shown * 1000) },
    });
  });

  it('takes another amount as it is typed, with a comma too, and asks again where it is far from the dose', async () => {
    const { written } = await cage();
    await button(say('round.give.different')).click();
    const field = dialog.getByRole('textbox', { name: say('round.different.typed') });
    await field.fill('');
    const record = dialog.getByRole('button', { name: say('round.different.record'), exact: true });
    await expect.element(record).toBeDisabled();
    await expect.element(record).toHaveAccessibleDescription(new RegExp(say('round.why.amount')));
    await field.fill('a bit');
    await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    await expect.element(record).toBeDisabled();
    await field.fill('1,5 mL');
    // Ten times too much is no slip that goes through in the same words.
    const really = dialog.getByRole('button', { name: say('round.different.really'), exact: true });
    await expect.element(really).toBeEnabled();
    await expect.element(dialog.getByRole('alert')).toBeVisible();
    await expect.element(record).not.toBeInTheDocument();
    await field.fill('0,11 mL');
    await record.click();
    await expect.element(page.getByText('line done')).toBeVisible();
    expect(await written()).toHaveLength(1);
    expect((await written())[0]?.body).toMatchObject({ volume_ul: 110, outcome: 'taken' });
  });

  it('keeps the lot that was read from the vial, and an empty one cannot be used', async () => {
    const { written } = await cage();
    await button(say('round.lot.other')).click();
    const use = dialog.getByRole('button', { name: say('round.lot.use-typed'), exact: true });
    await expect.element(use).toBeDisabled();
    await dialog.getByRole('textbox', { name: say('round.lot.typed') }).fill(' 0815 ');
    await use.click();
    await expect.element(dialog).not.toBeInTheDocument();
    await expect.element(page.getByText(say('round.lot.not-in-list', { lot: '0815' }))).toBeVisible();
    expect(await written()).toEqual([]);
  });

  it('a lot read from the vial that is on the shelf is that lot, with what is known of it', async () => {
    const { written } = await cage();
    await button(say('round.lot.other')).click();
    await dialog.getByRole('textbox', { name: say('round.lot.typed') }).fill(' 00 417');
    await dialog.getByRole('button', { name: say('round.lot.use-typed'), exact: true }).click();
    await expect.element(dialog).not.toBeInTheDocument();
    await atRest();
    await asDrawn.click();
    await expect.element(page.getByText('line done')).toBeVisible();
    expect((await written())[0]?.body).toMatchObject({ lot: 'pyr-1', lotText: '' });
  });

  it('what a second person came to is asked for again once something else is in the hand', async () => {
    const { kinds } = await cage(false, true);
    const second = button(say('drawup.second.open'));
    await expect.element(second).toBeVisible();
    const shown = document.querySelector('.in-sight .amount')?.textContent ?? '';
    await second.click();
    await page.getByRole('textbox', { name: new RegExp(say('drawup.second.weight')) }).fill('620');
    await page.getByRole('textbox').last().fill(shown);
    await expect.element(page.getByRole('textbox').last()).toHaveValue(shown);
    await expect.element(button(say('drawup.second.compare'))).toBeEnabled();
    await atRest();
    await button(say('drawup.second.compare')).click();
    await expect.element(second).not.toBeInTheDocument();
    await expect.element(asDrawn).toBeVisible();
    await atRest();
    await button(say('round.lot.other')).click();
    await dialog.getByRole('textbox', { name: say('round.lot.typed') }).fill('0815');
    await dialog.getByRole('button', { name: say('round.lot.use-typed'), exact: true }).click();
    await expect.element(second).toBeVisible();
    await expect.element(asDrawn).not.toBeInTheDocument();
    expect(await kinds()).not.toContain('treatment-given');
  });

  it('of a doubtful weight has no figure to give by, and its stop leads to the scale', async () => {
    const { places, written } = await cage(true);
    await expect.element(asDrawn).not.toBeInTheDocument();
    await button(say('round.gate.open')).click();
    await dialog.getByRole('button', { name: say('round.gate.weigh-now'), exact: true }).click();
    await expect.poll(() => places.at(-1)).toBe('/round/round-1/animal/kit-1/weigh');
    expect(await written()).toEqual([]);
  });

  it('has amount, lot and button in sight together on the smallest phone', async () => {
    await page.viewport(320, 568);
    await cage();
    await expect.element(asDrawn).toBeVisible();
    const { bottom, height } = asDrawn.element().getBoundingClientRect();
    expect(height).toBeGreaterThanOrEqual(56);
    expect(bottom).toBeLessThanOrEqual(568);
    const lot = page.getByText('00417').last().element().getBoundingClientRect();
    expect(lot.bottom).toBeLessThanOrEqual(568);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    await page.viewport(390, 844);
  });
});
