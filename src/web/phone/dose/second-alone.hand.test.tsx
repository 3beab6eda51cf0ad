import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { type Said, said } from '../../../core/said.js';
import { drawUpsFor, wantedOfRound } from '../../../log/prepare/draw-ups.js';
import { say } from '../../../words/say.js';
import { SecondAlone } from './second-alone.js';

const compare = page.getByRole('button', { name: say('drawup.second.compare'), exact: true });
const weight = page.getByRole('textbox', { name: new RegExp(say('drawup.second.weight')) });
const volume = page.getByRole('textbox', { name: new RegExp(say('drawup.second.volume')) });

/** The first person came to 620 g and 0.12 mL. */
async function cage(byOrder: Said | null = null, grams = 620) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  log.one('animal-weighed', 'animal:kit-1', { grams, entered: `${grams} g` }, when('12:00'));
  const onAgreed = vi.fn();
  const at = await atTheCage(log, ({ around }) => {
    const [drawUp] = drawUpsFor(around.world, wantedOfRound(around.world, around.round), around.now, around.round);
    if (drawUp === undefined) return <p>nothing to draw up</p>;
    const dose = { ...drawUp.dose, byOrder };
    return <SecondAlone {...drawUp} dose={dose} name="Kit 1" onAgreed={onAgreed} onBack={() => undefined} />;
  });
  return { onAgreed, ...at };
}

describe('the second person', () => {
  it('sees no figure of the first answer, and answers everything before it is compared', async () => {
    const { onAgreed } = await cage();
    await expect.element(compare).toBeDisabled();
    expect(document.querySelector('.second-alone')?.textContent).not.toMatch(/620|0\.12/);
    await weight.fill('620');
    await expect.element(compare).toBeDisabled();
    await volume.fill('0,12 mL');
    await compare.dblClick();
    await expect.poll(() => onAgreed.mock.calls).toEqual([['sol', { grams: 620, volume_ul: 120 }]]);
  });

  it('works out what was ordered, and not what the formulary would give (Verifies: PROT-R52)', async () => {
    await cage(said('order.dose.each', { amount: '20 mg per kg' }));
    await expect.element(compare).toBeVisible();
    const shown = document.querySelector('.second-alone')?.textContent ?? '';
    expect(shown).toContain('By the order: 20 mg per kg each time');
    expect(shown).not.toMatch(/\(from \d/);
  });

  // Verifies: DOSE-R80. 220 g: 0.044 mL is on no oral syringe finely enough, and is drawn to 0.05 mL.
  it('is told why the plunger does not stand at the dose, without a figure of the first answer', async () => {
    const { onAgreed } = await cage(null, 220);
    await expect.element(page.getByText(/No syringe measures the dose finely enough/)).toBeVisible();
    expect(document.querySelector('.second-alone')?.textContent).not.toMatch(/220|0\.05|0\.044/);
    await weight.fill('220');
    await volume.fill('0.05');
    await compare.click();
    await expect.poll(() => onAgreed.mock.calls).toEqual([['sol', { grams: 220, volume_ul: 50 }]]);
  });

  it('who comes to something else is told only that, and begins again with empty fields', async () => {
    const { onAgreed } = await cage();
    await weight.fill('620');
    await volume.fill('1.2 mL');
    await compare.click();
    const told = page.getByRole('alert');
    await expect.element(told).toBeVisible();
    await expect.element(told).not.toHaveTextContent(/\d/);
    await expect.element(weight).toHaveValue('');
    await expect.element(volume).toHaveValue('');
    await expect.element(compare).toBeDisabled();
    expect(onAgreed).not.toHaveBeenCalled();
  });
});
