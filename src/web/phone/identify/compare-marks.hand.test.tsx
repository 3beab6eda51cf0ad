import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { CompareMarks } from './compare-marks.js';

const itIs = page.getByRole('button', { name: say('round.marks.same', { animal: 'Kit 1' }), exact: true });

function cage() {
  const heard = { other: vi.fn(), override: vi.fn(), notThis: vi.fn() };
  const at = atTheCage(roundLog({ 'kit-1': ['roundworm'] }), ({ stop }) => (
    <CompareMarks
      stop={stop}
      found={null}
      onOther={heard.other}
      onOverride={heard.override}
      onNotThis={heard.notThis}
    />
  ));
  return { at, heard };
}

describe('an animal compared mark by mark', () => {
  it('is made sure of only when every mark on record was touched, and the button says which are left', async () => {
    const { at } = cage();
    const { written } = await at;
    await expect.element(itIs).toBeDisabled();
    await page.getByText('tabby').click();
    await page.getByText('white left hind foot').click();
    await expect.element(itIs).toHaveAccessibleDescription(new RegExp(say('round.mark.collar')));
    await expect.element(itIs).not.toHaveAccessibleDescription(new RegExp(say('round.mark.coat')));
    expect(await written()).toEqual([]);
    await page.getByText('teal').click();
    await itIs.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ kind: 'animal-identified', body: { by: 'marks' } });
    const [made] = await written();
    expect(made?.body).toMatchObject({ compared: expect.arrayContaining(['coat', 'collar', 'mark']) });
  });

  it('a mark that was touched and taken back is compared again', async () => {
    const { at } = cage();
    const { written } = await at;
    for (const mark of ['teal', 'tabby', 'white left hind foot', 'tabby']) {
      await page.getByText(mark).click();
    }
    await expect.element(itIs).toBeDisabled();
    expect(await written()).toEqual([]);
  });

  it('leads away by its other buttons without a word on record', async () => {
    const { at, heard } = cage();
    const { written } = await at;
    await page.getByRole('button', { name: say('round.marks.differ'), exact: true }).click();
    await atRest();
    await page.getByRole('button', { name: say('round.identify.override'), exact: true }).click();
    expect([heard.notThis, heard.override, heard.other].map((one) => one.mock.calls.length)).toEqual([1, 1, 0]);
    expect(await written()).toEqual([]);
  });

  it('fits on the smallest phone, each mark large enough for a glove', async () => {
    await page.viewport(320, 568);
    const { at } = cage();
    await at;
    await expect.element(itIs).toBeVisible();
    for (const mark of page.getByRole('checkbox').elements()) {
      expect(mark.closest('label')?.getBoundingClientRect().height).toBeGreaterThanOrEqual(56);
    }
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    await page.viewport(390, 844);
  });
});
