import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { starterKit } from '../../../../test/support/starter-kit.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { CountSheet } from './count-sheet.js';
import { PrepareSyringesSheet } from './prepare-syringes-sheet.js';
import { ReceiveSheet } from './receive-sheet.js';
import { WithdrawSheet } from './withdraw-sheet.js';

const dialog = page.getByRole('dialog');
const button = (name: string) => dialog.getByRole('button', { name, exact: true });
const text = (name: string) => dialog.getByRole('textbox', { name, exact: true });
const option = (name: string) => dialog.getByText(name, { exact: true });
const [first, second, third] = ['900000000000017', '900000000000018', '900000000000019'];

type Lot = Parameters<typeof CountSheet>[0]['lot'];

/** A sheet of the shelf; Kit 1 was wormed from lot 00417. */
async function shelf(Form: React.FC<{ lot: Lot; onClose: () => void }>) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  const given = {
    ...{ schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'by mouth' },
    ...{ round: 'round-1', outcome: 'taken', syringe: null },
  };
  log.one('treatment-given', 'animal:kit-1', given as never, '2026-03-01T13:35:00.000Z');
  const onClose = vi.fn();
  const at = await atTheCage(
    log,
    ({ around }) => {
      const lot = [...around.shelter.lots.values()].find(({ lotText }) => lotText === '00417');
      return lot === undefined ? <p>no such lot</p> : <Form lot={lot} onClose={onClose} />;
    },
    { at: '16:00', by: 'vera', partner: null },
  );
  await expect.element(dialog).toBeVisible();
  return { ...at, onClose };
}

describe('a lot that comes in', () => {
  const receive = button(say('desk.stock.receive'));
  const chips = async () => {
    const at = await shelf(({ onClose }) => <ReceiveSheet onClose={onClose} />);
    await option(say('desk.stock.sort.chips')).click();
    await text(say('desk.stock.lot')).fill('C1');
    return at;
  };
  const number = text(say('desk.stock.first-chip'));
  const many = text(say('desk.stock.how-many'));
  const add = button(say('desk.stock.add-chips'));

  it('a box of chips takes every pack of a fast hand, each once, and counts them', async () => {
    const { written, onClose } = await chips();
    for (const code of [first, second, second, third]) scans.hear(code);
    await expect.element(dialog.getByText(new RegExp(say('desk.stock.codes', { count: 3 })))).toBeVisible();
    await receive.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { of: { is: 'chips', codes: [first, second, third] }, pieces: 3 },
    ]);
  });

  it('a chip number that is cut off is refused and stays in its field to be put right, with the count beside it', async () => {
    await chips();
    await number.fill(first.slice(0, 12));
    await add.click();
    await expect.element(dialog.getByRole('alert')).toBeVisible();
    await expect.element(number).toHaveValue(first.slice(0, 12));
    await many.fill('3');
    await atRest();
    await add.click();
    await expect.element(dialog.getByRole('alert')).toBeVisible();
    await expect.element(number).toHaveValue(first.slice(0, 12));
    await number.fill(first);
    await atRest();
    await add.click();
    await expect.element(dialog.getByRole('alert')).not.toBeInTheDocument();
    await expect.element(dialog.getByText(new RegExp(say('desk.stock.codes', { count: 3 })))).toBeVisible();
    await expect.element(number).toHaveValue('');
  });

  it('“how many” that is no number does not become one chip', async () => {
    await chips();
    await number.fill(first);
    await many.fill('1O');
    await expect.element(many).toHaveAttribute('aria-invalid', 'true');
    await expect.element(add).toBeDisabled();
  });

  it('with a last day that is half typed is not without a last day', async () => {
    const { written } = await shelf(({ onClose }) => <ReceiveSheet onClose={onClose} />);
    await dialog.getByRole('button', { name: new RegExp(say('desk.stock.product')) }).click();
    await page.getByRole('option').first().click();
    await text(say('desk.stock.lot')).fill('0815');
    await text(say('desk.stock.pieces')).fill('12');
    await expect.element(receive).toBeEnabled();
    const expires = dialog.getByLabelText(say('desk.stock.expires'));
    await expires.fill('2027-03-09');
    (expires.element() as HTMLElement).focus();
    await userEvent.keyboard('{Delete}');
    await expect.element(receive).toBeDisabled();
    await expires.fill('2027-03-09');
    await text(say('desk.stock.pieces')).fill('1.5');
    await expect.element(receive).toBeDisabled();
    await expect.element(text(say('desk.stock.pieces'))).toHaveAttribute('aria-invalid', 'true');
    expect(await written()).toEqual([]);
  });

  it('a box of tests needs the lot of its own bottle, and says when that is another one', async () => {
    await shelf(({ onClose }) => <ReceiveSheet onClose={onClose} />);
    await option(say('desk.stock.sort.kit')).click();
    await dialog.getByRole('button', { name: new RegExp(say('desk.stock.kit')) }).click();
    await page.getByRole('option', { name: starterKit.name }).click();
    await text(say('desk.stock.lot')).fill('K27');
    await text(say('desk.stock.pieces')).fill('10');
    await expect.element(receive).toBeDisabled();
    await expect.element(dialog.getByText(say('desk.stock.needs.kit'))).toBeVisible();
    await text(say('desk.stock.conjugate')).fill('K28');
    await expect.element(dialog.getByText(say('desk.stock.conjugate-differs'))).toBeVisible();
  });
});

describe('a lot counted and taken off the shelf', () => {
  it('a count that is no whole number is refused in words, and one is recorded once', async () => {
    const { written, onClose } = await shelf(({ lot, onClose }) => <CountSheet lot={lot} onClose={onClose} />);
    const count = button(say('desk.stock.count'));
    await expect.element(count).toBeDisabled();
    await text(say('desk.stock.pieces')).fill('12,5');
    await expect.element(text(say('desk.stock.pieces'))).toHaveAttribute('aria-invalid', 'true');
    await expect.element(count).toBeDisabled();
    await text(say('desk.stock.pieces')).fill('0');
    await count.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([{ pieces: 0 }]);
  });

  it('for a recall it is said how many doses count no longer, and not for one that is used up', async () => {
    const { written } = await shelf(({ lot, onClose }) => <WithdrawSheet lot={lot} onClose={onClose} />);
    const voids = dialog.getByText(say('desk.stock.voids', { count: 1 }));
    await expect.element(button(say('desk.stock.withdraw'))).toBeDisabled();
    await option(say('desk.withdrawn.recalled')).click();
    await expect.element(voids).toBeVisible();
    await option(say('desk.withdrawn.used-up')).click();
    await expect.element(voids).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });
});

describe('syringes made ready', () => {
  it('keep until a time that somebody says: the time that stands there already can be taken, and no past one', async () => {
    const { written } = await shelf(({ onClose }) => <PrepareSyringesSheet onClose={onClose} />);
    const record = button(say('desk.prepare-syringes.record'));
    await text(say('desk.stock.pieces')).fill('5');
    await text(say('desk.prepare-syringes.lot')).fill('S1');
    await text(say('desk.prepare-syringes.with')).fill('citrate');
    await expect.element(dialog.getByText(say('desk.prepare-syringes.needs-until'))).toBeVisible();
    await option(say('desk.prepare-syringes.keeps.until')).click();
    // Nothing is wrong with the time on the screen: what it lacks is that it lies ahead.
    await expect.element(dialog.getByText(say('log.keeps-no-time'))).toBeVisible();
    await dialog.getByLabelText(say('desk.prepare-syringes.until')).fill('2026-03-02');
    await expect.element(record).toBeEnabled();
    await text(say('parts.time')).fill('25:00');
    await expect.element(record).toBeDisabled();
    await option(say('desk.prepare-syringes.keeps.unsaid')).click();
    await expect.element(record).toBeEnabled();
    expect(await written()).toEqual([]);
  });
});
