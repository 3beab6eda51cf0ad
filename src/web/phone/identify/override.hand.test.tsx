import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { reasonsWith } from '../../../core/bedside/override-rules.js';
import { say } from '../../../words/say.js';
import { OverrideSheet } from './override.js';

const goOn = page.getByRole('button', { name: say('round.override.do', { animal: 'Kit 1' }), exact: true });
const reason = reasonsWith([])[0] ?? 'other';

function cage(scanned: string | null = null) {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
  const found = { raw: '900000000000018', code: '900000000000018', class: 'iso' };
  const of = { target: 'animal', passes: 1, reader: '', found };
  log.one('chip-scanned', 'animal:kit-2', { ...of, occasion: 'intake', round: null } as never, when('10:30'));
  if (scanned !== null) {
    const body = { ...of, occasion: 'identify', told: 'other', round: 'round-1' };
    log.one('chip-scanned', 'animal:kit-1', body as never, when('13:36'));
  }
  const onClose = vi.fn();
  return { at: atTheCage(log, ({ stop }) => <OverrideSheet stop={stop} onClose={onClose} />), onClose };
}

describe('going on without proof', () => {
  it('takes one reason and two presses, and is written down with it once', async () => {
    const { at, onClose } = cage();
    const { written } = await at;
    await expect.element(goOn).toBeDisabled();
    await page.getByText(say(`override.${reason}`), { exact: true }).click();
    await goOn.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ kind: 'animal-identified', body: { by: 'override', reason } });
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
  });

  it('does not pass over a chip that says otherwise: that scan has to be answered too', async () => {
    const { at } = cage('900000000000018');
    const { written, kinds } = await at;
    const tick = page.getByRole('checkbox').first();
    await expect.element(tick).not.toBeChecked();
    const reasons = page.getByRole('radio');
    await expect.element(reasons.first()).toBeVisible();
    await page.getByRole('radiogroup').getByText(/\w/).nth(1).click();
    await expect.element(goOn).toBeDisabled();
    await expect.element(goOn).toHaveAccessibleDescription(/\w{3}/);
    expect(await written()).toEqual([]);
    (tick.element() as HTMLElement).click();
    await expect.element(goOn).toBeEnabled();
    await goOn.click();
    await expect.poll(kinds).toEqual(['chip-scanned', 'animal-identified']);
  });
});
