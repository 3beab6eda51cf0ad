import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { store } from '../../store/here.js';
import { TeamSheet } from './team.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const group = (name: string) => page.getByRole('radiogroup', { name });
const take = button(say('round.team.take'));
const chosen = (name: string, who: string) => group(name).getByRole('radio', { name: new RegExp(`^${who}`) });
const [treats, holds] = [say('round.team.treater'), say('round.team.holder')];

/** Ines treats and Sol holds; the phone is in somebody's hands. */
async function cage(by: string, partner: string | null) {
  const onClose = vi.fn();
  const at = await atTheCage(roundLog({ 'kit-1': ['roundworm'] }), () => <TeamSheet onClose={onClose} />, {
    by,
    partner,
  });
  await expect.element(take).toBeVisible();
  return { ...at, onClose };
}

describe('who works on a round', () => {
  it('the holder who has taken the phone changes places with the one who treated: nobody is lost', async () => {
    const { written } = await cage('sol', null);
    await expect.element(chosen(treats, 'Sol')).toBeChecked();
    await expect.element(chosen(holds, 'Ines')).toBeChecked();
    await take.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ treater: 'sol', holder: 'ines' });
    expect(store.who.get()).toMatchObject({ person: 'sol', partner: 'ines' });
  });

  it('the same two again is no new record', async () => {
    const { written, onClose } = await cage('ines', 'sol');
    await take.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect(await written()).toEqual([]);
  });

  it('whoever is chosen to treat does not hold too, and it is seen that nobody does', async () => {
    const { written } = await cage('ines', 'sol');
    await group(treats).getByText('Sol').first().click();
    await expect.element(chosen(holds, say('round.team.alone'))).toBeChecked();
    await group(holds).getByText('Ines').first().click();
    await atRest();
    await take.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ treater: 'sol', holder: 'ines' });
  });
});
