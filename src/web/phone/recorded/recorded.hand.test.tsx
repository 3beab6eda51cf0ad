import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { drawn, entered, roundId, roundLog, started, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { Recorded } from './recorded.js';

const dialog = page.getByRole('dialog');
const button = (name: string) => dialog.getByRole('button', { name, exact: true });
const keep = button(say('round.correct.keep'));
const grams = dialog.getByRole('textbox', { name: new RegExp(say('round.weigh.label')) });
type Log = ReturnType<typeof roundLog>;

/** What was recorded of Kit 1 on this round, and its sheet to put it right. */
async function list(write: (log: Log) => void, by = 'ines') {
  const log = roundLog({ 'kit-1': ['roundworm', 'felv-test'] });
  entered(log);
  write(log);
  const at = await atTheCage(log, () => <Recorded animal="kit-1" />, { at: '13:52', by });
  await page
    .getByRole('button', { name: say('round.correct.open') })
    .first()
    .click();
  await expect.element(dialog).toBeVisible();
  await atRest();
  return at;
}
const weighing = (grams: number, time: string, more: object = {}) => ({
  body: { grams, entered: `${grams} g`, round: roundId, ...more },
  time,
});

describe('a weight, put right', () => {
  const weighed = (log: Log, { body, time }: ReturnType<typeof weighing>) =>
    log.one('animal-weighed', 'animal:kit-1', body as never, when(time));

  it('starts with what was typed, waits for a weight, and takes the place of the old one once', async () => {
    const { written } = await list((log) => void weighed(log, weighing(620, '13:40')));
    await expect.element(grams).toHaveValue('620 g');
    await grams.fill('62o');
    await expect.element(keep).toBeDisabled();
    await expect.element(keep).toHaveAccessibleDescription(new RegExp(say('round.why.weight')));
    await grams.fill('602');
    await keep.dblClick();
    await expect.element(dialog).not.toBeInTheDocument();
    const records = await written();
    expect(records).toHaveLength(1);
    expect(records[0]).toMatchObject({ kind: 'animal-weighed', body: { grams: 602 }, happenedAt: when('13:40') });
    expect(records[0]?.corrects).toBeTruthy();
  });

  it('that does not fit the one before is said so and is doubtful, also in a correction', async () => {
    const { written } = await list((log) => {
      weighed(log, weighing(600, '12:00', { round: null }));
      weighed(log, weighing(620, '13:40'));
    });
    await grams.fill('6200');
    await expect.element(dialog.getByText(/\d/).first()).toBeVisible();
    await keep.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ grams: 6200, doubtful: true });
  });

  it('proved on another scale stays believed when a slip of a few grams is put right', async () => {
    const { written } = await list((log) => {
      weighed(log, weighing(600, '12:00', { round: null }));
      weighed(log, weighing(1200, '13:39', { doubtful: true }));
      weighed(log, weighing(1205, '13:40', { otherScale: true }));
    });
    await expect.element(grams).toHaveValue('1205 g');
    await grams.fill('1210');
    await keep.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ grams: 1210, doubtful: false, otherScale: true });
  });
});

describe('other records, put right', () => {
  it('why something was not given is another reason, and the rest stays', async () => {
    const { written } = await list((log) => {
      const body = {
        schedule: 'roundworm',
        reason: 'refused-or-escaped',
        note: 'bit the tube',
        dueAt: null,
        round: roundId,
      };
      log.one('treatment-not-given', 'animal:kit-1', body as never, when('13:41'));
    });
    await dialog.getByText(say('not-given.animal-ill'), { exact: true }).click();
    await keep.dblClick();
    await expect.element(dialog).not.toBeInTheDocument();
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { schedule: 'roundworm', reason: 'animal-ill', note: 'bit the tube' },
    ]);
  });

  it('a reading keeps its time: only what was seen changes', async () => {
    const { written } = await list((log) => {
      drawn(log, 1, '13:40');
      started(log, 1, '13:41');
      const seen = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };
      log.one('test-read', 'animal:kit-1', { run: 'run-1', seen, round: roundId } as never, when('13:50'));
    });
    await dialog
      .getByRole('group')
      .nth(1)
      .getByRole('button', { name: say('round.seen.faint') })
      .click();
    await keep.dblClick();
    await expect.element(dialog).not.toBeInTheDocument();
    const records = await written();
    expect(records).toHaveLength(1);
    expect(records[0]).toMatchObject({ kind: 'test-read', happenedAt: when('13:50') });
    expect(JSON.stringify(records[0]?.body)).toContain('faint');
  });

  it('what cannot be changed can be said not to have happened, and only with a reason', async () => {
    const { written } = await list((log) => drawn(log, 1, '13:40'));
    await expect.element(keep).not.toBeInTheDocument();
    await button(say('round.correct.did-not-count')).click();
    await expect.element(button(say('round.correct.withdraw'))).toBeDisabled();
    await button(say('round.correct.leave')).click();
    await expect.element(dialog).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });
});
