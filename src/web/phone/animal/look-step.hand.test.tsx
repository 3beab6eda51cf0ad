import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { noteObservation } from '../../../log/commands/animal.js';
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

  // Verifies: PROT-R72
  it('says how it is done and what is asked before, in the words of the protocol', async () => {
    const log = roundLog({ 'kit-1': ['flea-bath'] });
    const fleas = { code: 'fleas', state: 'present' as const, on: '2026-03-01' as never };
    log.add(noteObservation('kit-1' as never, fleas, '2026-03-01T13:35:00.000Z'));
    await atTheCage(log, ({ stop, line }) => <LookStep stop={stop} line={line} />, { schedule: 'flea-bath' });
    await expect.element(page.getByText('Rinse with warm water. Dry at once with towels, to the skin.')).toBeVisible();
    await expect.element(page.getByText('Is it warm, and does it move well?', { exact: false })).toBeVisible();
    await expect.element(button(say('round.look.done'))).toBeVisible();
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
