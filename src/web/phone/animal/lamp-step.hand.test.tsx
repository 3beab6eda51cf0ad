import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { lampAnswers } from '../../../core/animal/lamp.js';
import { say } from '../../../words/say.js';
import { LampStep } from './lamp-step.js';

const cage = () =>
  atTheCage(roundLog({ 'kit-1': ['ringworm-lamp'] }), ({ stop, line }) => <LampStep stop={stop} line={line} />);
const button = (name: string) => page.getByRole('button', { name, exact: true });

describe('the ringworm lamp', () => {
  it.each(lampAnswers)('writes down that it showed %s, once however often it is pressed', async (answer) => {
    const { written } = await cage();
    await button(say(`round.lamp.${answer}`)).dblClick();
    await expect.poll(async () => (await written()).length).toBeGreaterThan(0);
    const [seen, more] = await written();
    expect(seen).toMatchObject({ kind: 'observation-noted', body: { code: 'ringworm-lamp', answer } });
    expect(more).toBeUndefined();
  });

  it('answers one thing only: the other answer under a second finger is not taken', async () => {
    const { written } = await cage();
    await expect.element(button(say('round.lamp.no-glow'))).toBeVisible();
    await atRest();
    (button(say('round.lamp.no-glow')).element() as HTMLElement).click();
    (button(say('round.lamp.glow')).element() as HTMLElement).click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ body: { answer: 'no-glow' } });
  });

  it('is not left without a reason, and the sheet that asks for it gives the focus back', async () => {
    const { written } = await cage();
    const open = button(say('round.look.not-done'));
    await open.click();
    const record = button(say('round.not-given.record'));
    await expect.element(record).toBeDisabled();
    await expect.element(record).toHaveAccessibleDescription(new RegExp(say('round.why.reason')));
    await page
      .getByRole('dialog')
      .getByRole('button', { name: say('round.back'), exact: true })
      .click();
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await expect.element(open).toHaveFocus();
    expect(await written()).toEqual([]);
  });
});
