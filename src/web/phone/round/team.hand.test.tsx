import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { hasPinHere } from '../../../../test/support/without-network.js';
import { say } from '../../../words/say.js';
import { store } from '../../store/here.js';
import { TeamSheet } from './team.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const group = (name: string) => page.getByRole('radiogroup', { name });
const pin = page.getByLabelText(say('people.in.secret'));
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
    const { written } = await cage('sol', null);
    await hasPinHere('ines', '402917');
    await group(treats).getByText('Ines').first().click();
    await expect.element(chosen(holds, say('round.team.alone'))).toBeChecked();
    await group(holds).getByText('Vera').first().click();
    await pin.fill('402917');
    await atRest();
    await take.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ treater: 'ines', holder: 'vera' });
  });

  it('is nobody who has not proved it: without a PIN the button says so, and a wrong one changes nothing (Verifies: LOG-R213)', async () => {
    const { written, onClose } = await cage('sol', null);
    await hasPinHere('ines', '402917');
    await group(treats).getByText('Ines').first().click();
    await expect.element(take).toBeDisabled();
    await expect.element(take).toHaveAccessibleDescription(/Ines types the password or PIN first/);
    await pin.fill('402918');
    await take.click();
    await expect.element(page.getByText(say('people.in.pin-wrong'))).toBeVisible();
    expect(await written()).toEqual([]);
    expect(onClose).not.toHaveBeenCalled();
    expect(store.who.get()).toMatchObject({ person: 'sol' });
  });
});
