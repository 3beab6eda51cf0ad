import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, roundId, roundLog, started, when } from '../../../../test/support/round-log.js';
import { flagsIn } from '../../../log/flags/flags.js';
import { say } from '../../../words/say.js';
import { AnswerFlag, TakeFlag } from './flag-sheets.js';

const dialog = page.getByRole('dialog');
const button = (name: string) => dialog.getByRole('button', { name, exact: true });
const text = (name: string) => dialog.getByRole('textbox', { name, exact: true });
const option = (name: string) => dialog.getByText(name, { exact: true });

/** A kitten that looks ill, and whose test was reactive. */
async function desk(code: string, Form: typeof TakeFlag, by = 'vera') {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  const ill = { code: 'ill', state: 'present', on: '2026-03-01', round: null };
  log.one('observation-noted', 'animal:kit-1', ill as never, when('12:00'));
  drawn(log, 1, '13:40');
  started(log, 1, '13:41');
  const seen = { control: 'seen', antigen: 'seen', invalid: 'not-seen' };
  log.one('test-read', 'animal:kit-1', { run: 'run-1', seen, round: roundId } as never, when('13:50'));
  const onClose = vi.fn();
  const at = await atTheCage(
    log,
    ({ around }) => {
      const flags = flagsIn(around.world, around.today);
      const flag = flags.find((one) => (code === 'follow-up' ? one.followUp !== undefined : one.code === code));
      return flag === undefined ? (
        <p>{flags.map((one) => one.code).join(' ')}</p>
      ) : (
        <Form flag={flag} onClose={onClose} />
      );
    },
    { at: '16:00', by, partner: null },
  );
  await expect.element(dialog).toBeVisible();
  return { ...at, onClose };
}

describe('a flag', () => {
  it('is taken on once', async () => {
    const { kinds, onClose } = await desk('looks-ill', TakeFlag);
    await button(say('desk.flags.take')).dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect(await kinds()).toEqual(['flag-taken']);
  });

  it('goes only with words, and a note of blanks is none', async () => {
    const { written, onClose } = await desk('looks-ill', AnswerFlag);
    const answer = button(say('desk.flags.answer'));
    await expect.element(answer).toBeDisabled();
    await expect.element(dialog.getByText(say('log.answer-needs-words'))).toBeVisible();
    await text(say('desk.flags.note')).fill('   ');
    await expect.element(answer).toBeDisabled();
    await option(say('desk.answer.explained')).click();
    await text(say('desk.flags.note')).fill('Seen at noon, temperature taken.');
    await answer.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([{ answer: 'explained' }]);
  });
});

describe('what follows a reactive test', () => {
  const plan = option(say('desk.follow-up.is.plan'));
  const result = option(say('desk.follow-up.is.result'));
  const what = text(say('desk.follow-up.plan-what'));
  const method = text(say('desk.follow-up.method'));
  const person = async (): Promise<void> => {
    await dialog.getByRole('button', { name: new RegExp(say('desk.follow-up.person')) }).click();
    await page.getByRole('option', { name: 'Vera' }).click();
  };

  it('a plan that was begun does not become the method of a result, and is there again when it is chosen again', async () => {
    const { written } = await desk('follow-up', AnswerFlag);
    await expect.element(button(say('desk.follow-up.do.plan'))).toBeDisabled();
    await plan.click();
    await what.fill('Send blood to the laboratory');
    await result.click();
    await expect.element(method).toHaveValue('');
    await plan.click();
    await expect.element(what).toHaveValue('Send blood to the laboratory');
    expect(await written()).toEqual([]);
  });

  it('told by telephone it was read back or not, and a day that lies ahead is no day of a result', async () => {
    const { written, onClose } = await desk('follow-up', AnswerFlag);
    const record = button(say('desk.follow-up.do.result'));
    await result.click();
    await method.fill('PCR');
    await option(say('desk.follow-up.outcome.not-confirmed')).click();
    await person();
    await expect.element(record).toBeEnabled();
    await option(say('told.by-telephone')).click();
    await expect.element(record).toBeDisabled();
    await expect.element(dialog.getByText(say('told.needs-read-back'))).toBeVisible();
    await text(say('told.from')).fill('The laboratory');
    await option(say('told.read-back.no')).click();
    await expect.element(record).toBeEnabled();
    await dialog.getByLabelText(say('desk.follow-up.result-on')).fill('2026-03-08');
    await expect.element(record).toBeDisabled();
    await dialog.getByLabelText(say('desk.follow-up.result-on')).fill('2026-03-01');
    await record.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      {
        says: { is: 'result', method: 'PCR', outcome: 'not-confirmed' },
        told: { how: 'telephone', readBack: false, from: 'The laboratory' },
      },
    ]);
  });
});
