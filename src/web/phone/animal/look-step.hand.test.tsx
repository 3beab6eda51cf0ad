import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { observationWords } from '../../../told/codes.js';
import { say } from '../../../words/say.js';
import { LookStep } from './look-step.js';

const cage = (schedule: string) =>
  atTheCage(roundLog({ 'kit-1': [schedule] }), ({ stop, line }) => <LookStep stop={stop} line={line} />);
const button = (name: string) => page.getByRole('button', { name, exact: true });

describe('a look', () => {
  it('writes down the look and each thing that is ticked, and nothing that was ticked and taken back', async () => {
    const { written } = await cage('health-check');
    const tick = (code: string) => page.getByText(observationWords(code), { exact: true });
    await tick('sneezing').click();
    await tick('diarrhoea').click();
    await tick('sneezing').click();
    await expect.element(page.getByRole('checkbox', { name: observationWords('diarrhoea') })).toBeChecked();
    await button(say('round.look.done-seen')).click();
    await expect.poll(async () => (await written()).length).toBe(2);
    expect((await written()).map(({ body }) => (body as { code: string }).code)).toEqual(['health-check', 'diarrhoea']);
  });

  it('says by its button whether there is anything to report', async () => {
    await cage('health-check');
    await expect.element(button(say('round.look.done'))).toBeVisible();
    await page.getByText(observationWords('sneezing'), { exact: true }).click();
    await expect.element(button(say('round.look.done-seen'))).toBeVisible();
    await expect.element(button(say('round.look.done'))).not.toBeInTheDocument();
  });

  it('that asks whether something is so takes a no, and the no says so on record', async () => {
    const { written } = await cage('neuter-check');
    await button(say('round.look.no')).click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ body: { code: 'neuter-ready', state: 'absent' } });
  });
});
