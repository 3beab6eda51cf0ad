import { beforeEach, describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { sync } from '../../store/exchange.js';
import { Import } from './import.js';

const order = (id: 'day-first' | 'month-first') =>
  page.getByText(say(`desk.import.order.${id}`), { exact: true }).click();
const bringIn = (count: number) =>
  page.getByRole('button', { name: say('desk.import.bring-in', { count }), exact: true });

/** What the server says of the animals that left: none; or it does not answer. */
const server = vi.spyOn(sync.client, 'animals');
beforeEach(() => void server.mockResolvedValue({ ok: true, value: { animals: [] } } as never));

/** A file on the desk: its rows below the headings number, name, born, arrived, chip. */
async function desk(rows: readonly string[], headings = 'Number,Name,Born,Arrived,Chip') {
  const at = await atTheCage(roundLog({ 'kit-1': ['roundworm'] }), () => <Import />, {
    at: '16:00',
    by: 'sol',
    partner: null,
  });
  const file = new File([[headings, ...rows].join('\n')], 'march.csv', { type: 'text/csv' });
  await page.getByLabelText(say('desk.import.choose')).last().upload(file);
  await expect.element(page.getByRole('heading', { name: say('desk.import.columns') })).toBeVisible();
  return at;
}

describe('a file that is brought in', () => {
  it('asks in which order its days are written, and brings in nothing before it was said', async () => {
    const { written, kinds } = await desk(['101,Ash,03/02/2025,04/05/2025,', '102,Birch,05/01/2025,06/02/2025,']);
    await expect.element(page.getByText(say('desk.import.unanswered', { count: 1 }))).toBeVisible();
    expect(await written()).toEqual([]);
    await order('day-first');
    await atRest();
    await bringIn(2).dblClick();
    await expect.element(page.getByText(say('desk.import.done', { count: 2, name: 'march.csv' }))).toBeVisible();
    expect((await kinds()).filter((kind) => kind === 'animal-taken-in')).toHaveLength(2);
    expect((await kinds()).filter((kind) => kind === 'file-imported')).toHaveLength(1);
  });

  it('nothing comes in while nobody can say who has been here before: a row could come in twice', async () => {
    server.mockResolvedValue({ ok: false, problem: null } as never);
    const { written } = await desk(['101,Ash,2025-02-13,2025-04-15,']);
    await expect.element(page.getByText(say('desk.import.left-out-of-reach'))).toBeVisible();
    await expect.element(bringIn(1)).toBeDisabled();
    expect(await written()).toEqual([]);
  });

  it('a doubtful row that was ticked is looked at anew when the file is read in another way', async () => {
    const { written } = await desk(['101,Ash,03/02/2025,04/05/2025,12345', '102,Birch,05/01/2025,06/02/2025,']);
    await order('day-first');
    const tick = page.getByRole('checkbox', { name: say('desk.import.take-row', { row: 2 }) });
    await tick.click();
    await expect.element(bringIn(2)).toBeEnabled();
    // The days turn round: what was ticked was another animal's age.
    await order('month-first');
    await expect.element(bringIn(2)).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });
});
