import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, roundId, roundLog, when } from '../../../../test/support/round-log.js';
import { starterKit as kit } from '../../../../test/support/starter-kit.js';
import { codeOfLine } from '../../../log/plan/line-code.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { KeyIn } from './key-in.js';

const keep = page.getByRole('button', { name: say('ribbon.key-in.keep'), exact: true });
const text = (name: string) => page.getByRole('textbox', { name, exact: true });
const group = (name: string) => page.getByRole('radiogroup', { name });
const asHead = page.getByRole('button', {
  name: say('ribbon.key-in.as-head', { treater: 'Ines', holder: 'Sol' }),
  exact: true,
});
const [chip, other] = ['900000000000017', '900000000000018'];
const number = text(say('ribbon.key-in.chip'));
const found = text(say('ribbon.key-in.number-found'));

/** One line of a sheet, opened by its code, in the names of those at its head. */
async function sheet(schedule: string, write: (log: ReturnType<typeof roundLog>) => void = () => undefined) {
  const log = roundLog({ 'kit-1': [schedule] });
  write(log);
  const at = await atTheCage(log, () => <KeyIn />, { at: '16:00', by: 'sol', partner: null });
  await expect.element(page.getByRole('textbox', { name: say('ribbon.key-in.code') })).toBeVisible();
  scans.hear(codeOfLine(roundId as never, 1));
  await asHead.click();
  return at;
}

describe('a chip on paper', () => {
  const before = group(say('ribbon.key-in.before'));
  const after = group(say('ribbon.key-in.after'));

  it('one that was found in the animal is scanned into its own field, and is never the one that went in', async () => {
    const { written } = await sheet('chip');
    await expect.element(page.getByText(say('ribbon.key-in.needs-before'))).toBeVisible();
    await before.getByText(say('ribbon.key-in.scan.found'), { exact: true }).click();
    scans.hear(chip);
    await expect.element(found).toHaveValue(chip);
    await before.getByText(say('ribbon.key-in.scan.none'), { exact: true }).click();
    await expect.element(number).toHaveValue('');
    await expect.element(keep).toBeDisabled();
    await before.getByText(say('ribbon.key-in.scan.found'), { exact: true }).click();
    await keep.dblClick();
    await expect.element(page.getByText(say('ribbon.key-in.kept', { count: 1 }))).toBeVisible();
    const kinds = (await written()).map(({ kind }) => kind);
    expect(kinds).not.toContain('chip-implanted');
    expect(kinds).toContain('treatment-not-given');
  });

  it('another number after it went in goes beside it, and both are on record', async () => {
    const { written } = await sheet('chip');
    await before.getByText(say('ribbon.key-in.scan.none'), { exact: true }).click();
    scans.hear(chip);
    await expect.element(number).toHaveValue(chip);
    await after.getByText(say('ribbon.key-in.scan.other'), { exact: true }).click();
    await expect.element(keep).toBeDisabled();
    await expect.element(page.getByText(say('ribbon.key-in.needs-number'))).toBeVisible();
    scans.hear(other);
    await expect.element(found).toHaveValue(other);
    await expect.element(number).toHaveValue(chip);
    await keep.click();
    await expect.element(page.getByText(say('ribbon.key-in.kept', { count: 1 }))).toBeVisible();
    const bodies = (await written()).map(({ kind, body }) => [kind, body] as const);
    expect(bodies.find(([kind]) => kind === 'chip-implanted')?.[1]).toMatchObject({ code: chip });
    expect(bodies.filter(([kind]) => kind === 'chip-scanned').at(-1)?.[1]).toMatchObject({ found: { code: other } });
  });

  it('a number cut off is refused in words and stays', async () => {
    const { written } = await sheet('chip');
    await before.getByText(say('ribbon.key-in.scan.none'), { exact: true }).click();
    await number.fill(chip.slice(0, 12));
    await expect.element(number).toHaveAttribute('aria-invalid', 'true');
    await expect.element(keep).toBeDisabled();
    expect(await written()).toEqual([]);
  });
});

describe('a test on paper', () => {
  const started = text(say('ribbon.key-in.started'));
  const read = text(say('ribbon.key-in.read'));
  const seen = async (answers: readonly string[]): Promise<void> => {
    for (const [at, answer] of answers.entries())
      await page
        .getByRole('group', { name: new RegExp(kit.zones[at]?.name ?? '') })
        .getByRole('button', { name: answer, exact: true })
        .click();
  };

  it('has no time beforehand, is not read before it was started, and not later than now', async () => {
    const { written } = await sheet('felv-test', (log) => drawn(log, 1, '13:35'));
    await expect.element(page.getByText(say('ribbon.key-in.needs-started'))).toBeVisible();
    await started.fill('13:41');
    await expect.element(page.getByText(say('ribbon.key-in.needs-read'))).toBeVisible();
    await read.fill('13:30');
    await seen(['seen', 'not seen', 'not seen']);
    await expect.element(keep).toBeDisabled();
    await read.fill('17:30');
    await expect.element(keep).toBeDisabled();
    await expect.element(page.getByText(say('ribbon.key-in.later-than-now'))).toBeVisible();
    await read.fill('13:50');
    await keep.dblClick();
    await expect.element(page.getByText(say('ribbon.key-in.kept', { count: 1 }))).toBeVisible();
    const records = await written();
    expect(records.filter(({ kind }) => kind === 'test-read')).toHaveLength(1);
    expect(records.find(({ kind }) => kind === 'test-read')).toMatchObject({ happenedAt: when('13:50') });
  });
});

describe('the lamp on paper', () => {
  it('needs its answer, and a time that is one, and is kept once', async () => {
    const { written } = await sheet('ringworm-lamp');
    await expect.element(page.getByText(say('ribbon.key-in.needs-lamp'))).toBeVisible();
    await expect.element(keep).toBeDisabled();
    await page.getByText(say('round.lamp.no-glow'), { exact: true }).click();
    await text(say('parts.time')).fill('9:5');
    await expect.element(keep).toBeDisabled();
    await expect.element(text(say('parts.time'))).toHaveAttribute('aria-invalid', 'true');
    await text(say('parts.time')).fill('13:45');
    await keep.dblClick();
    await expect.element(page.getByText(say('ribbon.key-in.kept', { count: 1 }))).toBeVisible();
    const noted = (await written()).filter(({ kind }) => kind === 'observation-noted');
    expect(noted.map(({ body, by }) => [by, (body as { answer: string }).answer])).toEqual([['ines', 'no-glow']]);
  });
});
