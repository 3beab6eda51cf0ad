import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { roundId, roundLog, when } from '../../../../test/support/round-log.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { ChipStep } from './chip-step.js';
import { LookForChip } from './look-for-chip.js';

const [chip, boxed, nobodys] = ['900000000000017', '900000000000018', '900000000000019'];
const groups = chipText(chip);
const button = (name: string) => page.getByRole('button', { name, exact: true });
const silent = button(say('round.chip.reader-reads-nothing'));
const discard = button(say('round.chip.discard'));
const typed = page.getByRole('textbox', { name: say('round.identify.typed') });
const useTyped = button(say('round.chip.use-typed'));

/** A chip that went in and was not read afterwards; another one lies in the box. */
async function cage() {
  const log = roundLog({ 'kit-1': ['chip'] });
  const of = { is: 'chips', codes: [chip, boxed] };
  log.one('lot-received', 'lot:chips', { of, lotText: 'C1', expires: null, pieces: 2 } as never, when('09:00'));
  const scan = (occasion: string, target: string, code: string | null, time: string) => {
    const found = code === null ? null : { raw: code, code, class: 'iso' };
    return log.one(
      'chip-scanned',
      'animal:kit-1',
      { target, occasion, found, passes: 2, round: roundId } as never,
      when(time),
    );
  };
  scan('before', 'animal', null, '13:31');
  const pack = scan('pack', 'pack', chip, '13:32');
  const implant = { code: chip, site: 'between-shoulder-blades', packScan: pack.id, lot: 'chips', round: roundId };
  log.one('chip-implanted', 'animal:kit-1', implant as never, when('13:33'));
  scan('after', 'animal', null, '13:34');
  return atTheCage(log, ({ stop, line }) =>
    line.state === 'done' ? <p>done</p> : <ChipStep stop={stop} line={line} />,
  );
}

describe('a chip that cannot be read', () => {
  it('is not given up before the reader was tried: what the reader reads of another chip leads on', async () => {
    const { written } = await cage();
    await expect.element(silent).toBeVisible();
    await expect.element(discard).not.toBeInTheDocument();
    scans.hear(boxed);
    await expect.element(page.getByText(say('round.chip.scan-whole', { code: groups, animal: 'Kit 1' }))).toBeVisible();
    expect((await written()).map(({ body }) => body)).toMatchObject([{ occasion: 'reader', target: 'known' }]);
    await button(say('round.chip.cannot-read')).click();
    await discard.dblClick();
    await expect
      .poll(async () => (await written()).map(({ kind }) => kind))
      .toEqual(['chip-scanned', 'chip-scanned', 'chip-discarded']);
    expect((await written()).at(-1)?.body).toMatchObject({ code: chip, why: 'not-found' });
  });

  it('a reader that reads nothing is said to be at fault: the chip is not blamed', async () => {
    const { kinds } = await cage();
    await silent.dblClick();
    await expect.element(page.getByRole('alert')).toHaveTextContent(say('round.chip.reader-silent'));
    expect(await kinds()).toEqual(['chip-scanned']);
    await expect.element(discard).not.toBeInTheDocument();
  });

  it('read as itself, it is asked where: on the label it proves the reader only, in the animal it is done', async () => {
    const { written } = await cage();
    await expect.element(silent).toBeVisible();
    scans.hear(chip);
    await expect.element(page.getByText(say('round.chip.itself', { code: groups }))).toBeVisible();
    expect(await written()).toEqual([]);
    await button(say('round.chip.itself-label')).click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ target: 'known', occasion: 'reader', found: { code: chip } });
    await expect.element(page.getByText('done', { exact: true })).not.toBeInTheDocument();
    await atRest();
    scans.hear(chip);
    await expect.element(page.getByText('done', { exact: true })).toBeVisible();
  });

  it('seen outside is asked once more, and a reading that comes in meanwhile does not answer it', async () => {
    const { written } = await cage();
    await button(say('round.chip.seen-outside')).click();
    await expect.element(button(say('round.chip.outside-yes'))).toBeVisible();
    await atRest();
    await button(say('round.chip.outside-no')).click();
    await expect.element(silent).toBeVisible();
    expect(await written()).toEqual([]);
    await atRest();
    await button(say('round.chip.seen-outside')).click();
    await button(say('round.chip.outside-yes')).dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ kind: 'chip-discarded', body: { why: 'seen-outside', code: chip } });
  });

  it('a number of nobody’s, read while this animal is in doubt, is taken as its own and does not clear the chip', async () => {
    const { written } = await cage();
    await expect.element(silent).toBeVisible();
    await typed.fill(nobodys.slice(0, 10));
    await useTyped.click();
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(typed).toHaveValue(nobodys.slice(0, 10));
    expect(await written()).toEqual([]);
    await expect.element(useTyped).not.toHaveAttribute('data-held');
    await typed.fill(nobodys);
    await useTyped.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ occasion: 'after', typed: true, found: { code: nobodys } });
    await expect.element(page.getByText('done', { exact: true })).not.toBeInTheDocument();
  });
});

describe('the chip again, before an animal leaves', () => {
  const lookCage = (code: string | null = chip) => {
    const log = roundLog({ 'kit-1': ['chip'], 'kit-2': ['chip'] });
    if (code !== null) {
      const scan = { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' }, passes: 1 };
      log.one('chip-scanned', 'animal:kit-1', { ...scan, round: null } as never, when('10:31'));
    }
    return atTheCage(log, ({ stop, line }) => <LookForChip stop={stop} line={line} />);
  };

  it('shows the number to compare; the wrong one is kept as what was read, with what was said of it', async () => {
    const { written } = await lookCage();
    await expect.element(page.getByText(groups).first()).toBeVisible();
    scans.hear(nobodys);
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ occasion: 'recheck', told: 'not-this', typed: false });
  });

  it('a cut off number is refused and can be put right; “cannot read it” is kept once', async () => {
    const { written } = await lookCage();
    await expect.element(typed).toBeVisible();
    scans.hear(chip.slice(0, 9));
    await expect.element(page.getByRole('alert')).toBeVisible();
    expect(await written()).toEqual([]);
    await button(say('round.chip.cannot-read')).dblClick();
    await expect.element(page.getByRole('alert')).not.toBeInTheDocument();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ occasion: 'recheck', found: null });
  });

  it('while “not done” is asked about, a scan is not taken for an answer', async () => {
    const { written } = await lookCage();
    await button(say('round.look.not-done')).click();
    await expect.element(page.getByRole('dialog')).toBeVisible();
    scans.hear(chip);
    await page
      .getByRole('dialog')
      .getByRole('button', { name: say('round.back') })
      .click();
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await expect.element(typed).toBeVisible();
    expect((await written()).filter(({ kind }) => kind === 'treatment-not-given')).toEqual([]);
  });
});
