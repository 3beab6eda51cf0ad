import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, entered, roundLog, started } from '../../../../test/support/round-log.js';
import { hasPinHere } from '../../../../test/support/without-network.js';
import { say } from '../../../words/say.js';
import { store } from '../../store/here.js';
import { HandBack } from './hand-back.js';
import { StillSheet } from './still-sheet.js';
import { TeamSheet } from './team.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const back = button(say('round.hand-back.do'));

describe('handing a round back', () => {
  it('gives every open line a reason, the one chosen for all, and keeps the note', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm', 'weighing'] });
    const { written } = await atTheCage(log, () => <HandBack />);
    await expect.element(back).toBeDisabled();
    await expect.element(back).toHaveAccessibleDescription(new RegExp(say('round.why.left', { count: 3 })));
    await page.getByRole('textbox', { name: say('round.hand-back.note') }).fill('Scale was flat.');
    await page.getByText(say('not-given.ran-out-of-time'), { exact: true }).click();
    await back.dblClick();
    await expect.element(page.getByText(say('round.hand-back.done'))).toBeVisible();
    const records = await written();
    expect(records.map(({ kind }) => kind)).toEqual([
      ...Array.from({ length: 3 }, () => 'treatment-not-given'),
      'handed-back',
    ]);
    expect(records.at(-1)?.body).toMatchObject({ done: 0, notDone: 3, note: 'Scale was flat.' });
  });

  it('one line can have a reason of its own, and the count goes down with it', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
    const { written } = await atTheCage(log, () => <HandBack />);
    await button(say('round.hand-back.reason')).first().click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText(say('not-given.refused-or-escaped'), { exact: true }).click();
    await dialog.getByRole('button', { name: say('round.not-given.record'), exact: true }).click();
    await expect.element(page.getByText(say('round.hand-back.left', { count: 1 }))).toBeVisible();
    expect(await written()).toHaveLength(1);
    await expect.element(back).toBeDisabled();
  });

  it('is not possible while a test runs or a section has not been left', async () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    entered(log);
    drawn(log, 1, '13:32');
    started(log, 1, '13:34');
    const { written } = await atTheCage(log, () => <HandBack />);
    await expect.element(back).toBeDisabled();
    await expect.element(back).toHaveAccessibleDescription(/Kit 1/);
    expect(await written()).toEqual([]);
  });
});

describe('the team on this phone', () => {
  it('changes for the round and for this device with one press, and nobody holds for herself', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const { written } = await atTheCage(log, () => <TeamSheet onClose={() => undefined} />, {
      by: 'sol',
      partner: null,
    });
    await hasPinHere('ines', '402917');
    const treats = page.getByRole('radiogroup', { name: say('round.team.treater') });
    await treats.getByText('Ines').click();
    const holds = page.getByRole('radiogroup', { name: say('round.team.holder') });
    await expect.element(holds.getByText('Ines')).not.toBeInTheDocument();
    await expect.element(holds.getByRole('radio', { name: new RegExp(say('round.team.alone')) })).toBeChecked();
    await page.getByLabelText(say('people.in.secret')).fill('402917');
    await button(say('round.team.take')).dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ kind: 'team-changed', body: { treater: 'ines', holder: null } });
    expect(store.who.get()).toMatchObject({ person: 'ines', partner: null });
  });

  it('is asked after a pause, and only an answer closes the question', async () => {
    let done = 0;
    const log = roundLog({ 'kit-1': ['roundworm'] });
    await atTheCage(log, () => (
      <StillSheet person="Ines" partner="Sol" onDone={() => (done += 1)} onChange={() => undefined} />
    ));
    const dialog = page.getByRole('dialog');
    await expect.element(dialog).toHaveTextContent(/Ines.*Sol/);
    (document.querySelector('.veil') as HTMLElement).click();
    await expect.element(dialog).toBeVisible();
    expect(done).toBe(0);
    await button(say('round.still.yes')).click();
    expect(done).toBe(1);
  });
});
