import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import type { Dose } from '../../../core/dosing/dose.js';
import { said } from '../../../core/said.js';
import { drawUpsFor, wantedOfRound } from '../../../log/prepare/draw-ups.js';
import { say } from '../../../words/say.js';
import { PassSheet } from './pass-gate.js';

const pass = page.getByRole('button', { name: say('round.gate.pass'), exact: true });
const why = page.getByRole('textbox', { name: say('drawup.word.why') });

/** A dose that is stopped because its lot has expired, which a veterinarian's word lets through. */
async function cage(
  gate: object = { code: 'lot-expired', severity: 'stop', why: said('round.back') },
  byOrder = false,
) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620 g' }, when('12:00'));
  const heard = { passed: vi.fn(), close: vi.fn() };
  const at = await atTheCage(log, ({ around, stop }) => {
    const [drawUp] = drawUpsFor(around.world, wantedOfRound(around.world, around.round), around.now, around.round);
    if (drawUp === undefined) return null;
    const dose = { ...drawUp.dose, stopped: true, gates: [gate] } as unknown as Dose;
    return (
      <PassSheet
        product={drawUp.product.id}
        dose={dose}
        animal={stop.animal}
        byOrder={byOrder}
        passed={[]}
        onPassed={heard.passed}
        onClose={heard.close}
      />
    );
  });
  return { ...at, heard };
}

describe('a word that lets a dose through', () => {
  it('needs whose it is, how it came and why, and a reason of blanks is none', async () => {
    const { written, heard } = await cage();
    await expect.element(pass).toBeDisabled();
    await page.getByText('Vera').first().click();
    await page.getByText(say('round.gate.reason.by-telephone'), { exact: true }).click();
    await why.fill('   ');
    await expect.element(pass).toBeDisabled();
    await expect.element(pass).toHaveAccessibleDescription(new RegExp(say('round.why.word')));
    await why.fill('No other bottle tonight.');
    await pass.dblClick();
    await expect.poll(() => heard.close.mock.calls.length).toBe(1);
    expect(heard.passed.mock.calls).toHaveLength(1);
    expect(heard.passed.mock.lastCall?.[0]).toMatchObject([
      { gate: 'lot-expired', how: 'by-telephone', by: 'vera', reason: 'No other bottle tonight.' },
    ]);
    expect((await written()).length).toBeGreaterThan(0);
  });

  it('is offered from nobody without a licence', async () => {
    await cage();
    await expect.element(pass).toBeVisible();
    expect(page.getByRole('dialog').element().textContent).toContain('Vera');
    expect(page.getByRole('radiogroup').first().element().textContent).not.toMatch(/Ines|Sol/);
  });

  it('is not asked for where people can answer: what was seen is noted (Verifies: DOSE-R73)', async () => {
    const { written, heard } = await cage({
      code: 'if-pregnant',
      severity: 'stop',
      why: said('round.back'),
      asks: 'pregnant',
    });
    const not = say('round.gate.is-not-so', { what: say('desk.observation.pregnant') });
    await page.getByRole('button', { name: not, exact: true }).dblClick();
    await expect.poll(() => heard.close.mock.calls.length).toBeGreaterThan(0);
    expect((await written()).map(({ kind, body }) => [kind, (body as { state: string }).state])).toEqual([
      ['observation-noted', 'absent'],
    ]);
  });

  it('opens no stop of the label of an order, which the order alone opens (Verifies: PROT-R58)', async () => {
    await cage({ code: 'below-label-age', severity: 'stop', why: said('round.back') }, true);
    await expect.element(page.getByText(say('round.gate.way.order'))).toBeVisible();
    await expect.element(pass).not.toBeInTheDocument();
  });
});
