import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { atTheCage } from '../../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../../test/support/on-page.js';
import { roundLog, when } from '../../../../../test/support/round-log.js';
import { starterProtocol } from '../../../../../test/support/shelter-log.js';
import { say } from '../../../../words/say.js';
import type { DoProps } from './doing.js';
import { HoldSheet } from './hold-sheet.js';
import { LeaveSheet } from './leave-sheet.js';
import { MoveSheet } from './move-sheet.js';
import { ObserveSheet } from './observe-sheet.js';
import { WeighSheet } from './weigh-sheet.js';

const dialog = page.getByRole('dialog');
const button = (name: string) => dialog.getByRole('button', { name, exact: true });
const text = (name: string) => dialog.getByRole('textbox', { name, exact: true });
const option = (name: string) => dialog.getByText(name, { exact: true });

/** A sheet of the desk over Kit 1, who weighed 620 g at noon and sits in kennel N1 of the nursery. */
async function desk(Form: React.FC<DoProps>) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620 g' }, when('12:00'));
  const onClose = vi.fn();
  const at = await atTheCage(log, ({ stop }) => <Form animal={stop.animal} onClose={onClose} />, {
    at: '16:00',
    by: 'sol',
    partner: null,
  });
  await expect.element(dialog).toBeVisible();
  return { ...at, onClose };
}

/** Takes the first part of a day away, as a finger that slips does. */
async function half(day: ReturnType<typeof dialog.getByLabelText>): Promise<void> {
  (day.element() as HTMLElement).focus();
  await userEvent.keyboard('{Delete}');
}

const pick = async (label: string, choice: string): Promise<void> => {
  await dialog.getByRole('button', { name: new RegExp(label) }).click();
  await page.getByRole('option', { name: new RegExp(choice) }).click();
};

describe('a move', () => {
  it('is recorded once, and the kennel of the old section does not go along', async () => {
    const { written, onClose } = await desk(MoveSheet);
    const move = button(say('desk.do.move'));
    await expect.element(move).toBeDisabled();
    await expect.element(dialog.getByText(say('desk.move.same'))).toBeVisible();
    await expect.element(text(say('desk.animal.kennel'))).toHaveValue('N1');
    await pick(say('desk.section.name'), 'Quarantine');
    await expect.element(text(say('desk.animal.kennel'))).toHaveValue('');
    await text(say('desk.animal.kennel')).fill('Q2');
    await atRest();
    await move.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    const records = await written();
    expect(records).toHaveLength(1);
    expect(records[0]?.body).toMatchObject({
      section: 'quarantine',
      kennel: 'Q2',
      from: { section: 'nursery', kennel: 'N1' },
    });
  });

  it('chosen back is no move: the kennel it sits in stands there again', async () => {
    await desk(MoveSheet);
    await pick(say('desk.section.name'), 'Quarantine');
    await pick(say('desk.section.name'), 'Nursery');
    await expect.element(text(say('desk.animal.kennel'))).toHaveValue('N1');
    await expect.element(button(say('desk.do.move'))).toBeDisabled();
  });
});

describe('a hold', () => {
  it('whose end is half typed is not a hold without an end', async () => {
    const { written } = await desk(HoldSheet);
    const hold = button(say('desk.do.hold'));
    await expect.element(hold).toBeEnabled();
    const until = dialog.getByLabelText(say('desk.holds.until'));
    await until.fill('2026-03-09');
    await half(until);
    await expect.element(hold).toBeDisabled();
    await until.fill('2026-02-09');
    await expect.element(hold).toBeDisabled();
    await expect.element(dialog.getByText(say('log.hold-ends-before-start'))).toBeVisible();
    await until.fill('');
    await expect.element(hold).toBeEnabled();
    expect(await written()).toEqual([]);
  });

  it('of some treatments names them, and what was ticked for “some” is not left over for “all”', async () => {
    const { written, onClose } = await desk(HoldSheet);
    await option(say('desk.holds.reach.some')).click();
    await expect.element(button(say('desk.do.hold'))).toBeDisabled();
    await expect.element(dialog.getByText(say('desk.holds.needs-some'))).toBeVisible();
    await option(starterProtocol.schedules[0]?.name ?? '').click();
    await option(say('desk.holds.reach.all')).click();
    await button(say('desk.do.hold')).dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { schedules: 'all', until: null, owner: 'sol', recheckOn: '2026-03-08' },
    ]);
  });

  it('needs somebody who looks after it and a day, and one that ends is not looked at again', async () => {
    const { written, onClose } = await desk(HoldSheet);
    const hold = button(say('desk.do.hold'));
    const recheck = dialog.getByLabelText(say('desk.holds.recheck'));
    await expect.element(recheck).toHaveValue('2026-03-08');
    await recheck.fill('');
    await expect.element(hold).toBeDisabled();
    await expect.element(dialog.getByText(say('log.hold-needs-day'))).toBeVisible();
    await recheck.fill('2026-03-01');
    await expect.element(dialog.getByText(say('log.hold-recheck-before-start'))).toBeVisible();
    await half(recheck);
    await expect.element(hold).toBeDisabled();
    await dialog.getByLabelText(say('desk.holds.until')).fill('2026-03-09');
    await expect.element(recheck).not.toBeInTheDocument();
    await pick(say('desk.holds.owner'), 'Vera');
    await hold.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { until: '2026-03-09', owner: 'vera', recheckOn: null },
    ]);
  });
});

describe('something seen', () => {
  it('whose last day is half typed is not without an end, and nothing chosen says what is missing', async () => {
    const { written, onClose } = await desk(ObserveSheet);
    const note = button(say('desk.do.observe'));
    await expect.element(note).toBeDisabled();
    await expect.element(dialog.getByText(say('desk.seen.needs-code'))).toBeVisible();
    await option(say('desk.observation.sneezing')).click();
    const until = dialog.getByLabelText(say('desk.seen.until'));
    await until.fill('2026-03-09');
    await half(until);
    await expect.element(note).toBeDisabled();
    await until.fill('2026-03-09');
    await note.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { code: 'sneezing', state: 'present', on: '2026-03-01', until: '2026-03-09' },
    ]);
  });

  it('that ends before it began is not taken', async () => {
    await desk(ObserveSheet);
    await option(say('desk.observation.sneezing')).click();
    await dialog.getByLabelText(say('desk.seen.until')).fill('2026-02-09');
    await expect.element(button(say('desk.do.observe'))).toBeDisabled();
  });
});

describe('an animal leaves', () => {
  it('only in a way that somebody has said, on a whole day, once', async () => {
    const { written, onClose } = await desk(LeaveSheet);
    const leave = button(say('desk.do.leave'));
    await expect.element(leave).toBeDisabled();
    await expect.element(dialog.getByText(say('desk.leave.needs'))).toBeVisible();
    await option(say('desk.left.adopted')).click();
    await expect.element(leave).toBeEnabled();
    await half(dialog.getByLabelText(say('desk.leave.on')));
    await expect.element(leave).toBeDisabled();
    await dialog.getByLabelText(say('desk.leave.on')).fill('2026-03-01');
    await leave.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ kind, body }) => [kind, body])).toMatchObject([
      ['animal-left', { how: 'adopted', on: '2026-03-01' }],
    ]);
  });
});

describe('a weighing at the desk', () => {
  it('that is doubtful asks for a second one in an empty field, and closes with the second', async () => {
    const { written, onClose } = await desk(WeighSheet);
    const grams = dialog.getByRole('textbox', { name: new RegExp(say('desk.animal.weight')) });
    const weigh = button(say('desk.do.weigh'));
    await expect.element(weigh).toBeDisabled();
    await grams.fill('6200');
    await expect.element(dialog.getByRole('status')).toBeVisible();
    await weigh.dblClick();
    await expect.element(dialog.getByText(say('desk.weigh.again'))).toBeVisible();
    await expect.element(grams).toHaveValue('');
    await expect.element(weigh).toBeDisabled();
    expect(onClose).not.toHaveBeenCalled();
    await atRest();
    await grams.fill('622');
    await weigh.click();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { grams: 6200, doubtful: true },
      { grams: 622, doubtful: false },
    ]);
  });
});
