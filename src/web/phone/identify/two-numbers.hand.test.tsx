import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { entered, roundId, roundLog, when } from '../../../../test/support/round-log.js';
import { openDifference } from '../../../log/views/chips/chip-course.js';
import { chipTrust } from '../../../log/views/chips/chip-trust.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { ChipDiffers } from './chip-differs.js';
import { TwoChipsStand } from './two-chips.js';

const [own, other, next] = ['900000000000017', '900000000000018', '900000000000019'];
const button = (name: string) => page.getByRole('button', { name, exact: true });
const differs = page.getByRole('alertdialog');
const standing = page.getByRole('heading', { name: say('round.two-chips.title', { name: 'Kit 1' }) });
const word = button(say('round.two-chips.word'));
const goOn = button(say('round.two-chips.go-on'));

/** A kitten with a chip on record, in which another one was read when it was looked for. Kit 2 wears the next number. */
async function cage(read: string) {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
  entered(log);
  for (const [kit, code] of [
    [1, own],
    [2, next],
  ] as const) {
    const scan = { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' }, passes: 1 };
    log.one('chip-scanned', `animal:kit-${kit}`, { ...scan, round: null } as never, when('10:31'));
  }
  const found = { raw: read, code: read, class: 'iso' };
  const scan = { target: 'animal', occasion: 'recheck', found, passes: 2, round: roundId };
  log.one('chip-scanned', 'animal:kit-1', scan as never, when('13:39'));
  return atTheCage(log, ({ around, stop }) => {
    const difference = openDifference(stop.animal, stop.own);
    if (difference !== null) return <ChipDiffers stop={stop} difference={difference} onAgain={() => undefined} />;
    const chips = chipTrust(stop.animal, around.shelter.answers);
    return chips?.stops ? <TwoChipsStand stop={stop} chips={chips} onAgain={null} /> : <p>work goes on</p>;
  });
}

describe('another number than the one on record', () => {
  it('stops everything and shows both; left to the desk it goes on standing, and nothing can be given', async () => {
    const { written, kinds } = await cage(other);
    await expect.element(differs).toBeVisible();
    await expect.element(differs).toHaveTextContent(/900\s000\s000\s000\s017/);
    await expect.element(differs).toHaveTextContent(/900\s000\s000\s000\s018/);
    await button(say('round.chip.keep-both')).dblClick();
    await expect.element(standing).toBeVisible();
    expect(await kinds()).toEqual(['chip-scanned']);
    expect((await written())[0]?.body).toMatchObject({ leftToDesk: true, found: { code: other } });
    await expect.element(page.getByText('work goes on')).not.toBeInTheDocument();
  });

  it('names the animal whose number it is, and says so on record when that cat was on the table', async () => {
    const { written } = await cage(next);
    await expect.element(differs).toHaveTextContent('Kit 2');
    await button(say('round.chip.other-cat')).dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ occasion: 'identify', told: 'other', found: { code: next } });
  });
});

describe('two numbers left to the desk', () => {
  async function left() {
    const at = await cage(other);
    await button(say('round.chip.keep-both')).click();
    await expect.element(standing).toBeVisible();
    await atRest();
    return at;
  }

  it('take a named word, how it came and why, from one of those who may give it, once', async () => {
    const { written } = await left();
    await word.click();
    await expect.element(goOn).toBeDisabled();
    await expect.element(goOn).toHaveAccessibleDescription(new RegExp(say('round.why.word')));
    expect(page.getByRole('radiogroup').first().element().textContent).not.toContain('Ines');
    await page.getByText('Vera').first().click();
    await page.getByText(say('round.gate.reason.by-telephone'), { exact: true }).click();
    const why = page.getByRole('textbox', { name: say('round.why') });
    await why.fill('  ');
    await expect.element(goOn).toBeDisabled();
    await why.fill(' The owner has both papers. ');
    await goOn.dblClick();
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    const records = await written();
    expect(records).toHaveLength(2);
    expect(records[1]?.body).toMatchObject({
      leftToDesk: true,
      word: { by: 'vera', how: 'by-telephone', reason: 'The owner has both papers.' },
    });
    await expect.element(page.getByText('work goes on')).toBeVisible();
  });

  it('are not cleared by a word that was begun and not given, and another animal can be worked on', async () => {
    const { written, places } = await left();
    await word.click();
    await page.getByText('Vera').first().click();
    await button(say('round.back')).click();
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await expect.element(standing).toBeVisible();
    expect(await written()).toHaveLength(1);
    scans.hear(next);
    await expect.poll(() => places.at(-1)).toContain('kit-2');
  });
});
